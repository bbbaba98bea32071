#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "core/bench/shop.h"
#include "core/fault/input_fault.h"

using namespace waybench;

namespace {

const Shop& shop() {
    static const Shop tables = readShop(std::filesystem::path(WAYBENCH_SOURCE) / "resources");
    return tables;
}

std::string codeOf(const PrintingMaterial& material, double temperature, double duration) {
    try {
        modulusFactor(material, temperature, duration);
    } catch (const InputFault& fault) {
        return fault.code();
    }
    return "none";
}

}  // namespace

TEST_CASE("A brief load at room temperature leaves the modulus as it is") {
    for (const PrintingMaterial& m : shop().printingMaterials) {
        const Figure factor = modulusFactor(m, 23, 0);
        CHECK(factor.value == 1);
        CHECK(factor.low == 1);
        CHECK(factor.high == 1);
    }
    for (const StockMaterial& m : shop().stockMaterials)
        CHECK(modulusFactor(m, 23, 0).value == 1);
}

TEST_CASE("Warmer and longer never make a material stiffer, up to the limit where it is refused") {
    for (const PrintingMaterial& m : shop().printingMaterials) {
        INFO(m.key);
        const double limit = temperatureLimit_celsius(m);
        double warmBefore = 2;
        for (double T = -20; T < limit; T += 2) {
            const Figure brief = modulusFactor(m, T, 0);
            CHECK(brief.value <= warmBefore);
            warmBefore = brief.value;
            double longBefore = 2;
            for (double hours : {0.0, 0.1, 1.0, 24.0, 1000.0, 8766.0}) {
                const Figure factor = modulusFactor(m, T, hours);
                CHECK(factor.value <= longBefore);
                CHECK(factor.low > 0);
                CHECK(factor.low <= factor.value);
                CHECK(factor.high >= factor.value);
                CHECK(factor.high <= 1);
                longBefore = factor.value;
            }
        }
        CHECK(codeOf(m, limit, 0) == "temperature_too_high");
    }
}

TEST_CASE("The modulus at the deflection temperature would be 900 MPa") {
    PrintingMaterial m = shop().printingMaterial("abs");
    m.glassTransition = m.glassTransition.times(2);  // only to reach the deflection temperature
    CHECK(modulusFactor(m, m.deflectionTemperature.value, 0).value * m.modulusInLayer.value == Approx(900));
}

TEST_CASE("Ten kelvin double the creep factor") {
    const PrintingMaterial& pc = shop().printingMaterial("pc");
    const double at23 = 1 / modulusFactor(pc, 23, 100).value - 1;
    const double at33 = modulusFactor(pc, 33, 0).value / modulusFactor(pc, 33, 100).value - 1;
    CHECK(at33 == Approx(2 * at23));
}

TEST_CASE("PLA in a hot car is refused, PETG at 45 degrees is not") {
    CHECK(codeOf(shop().printingMaterial("pla"), 60, 1) == "temperature_too_high");
    CHECK(codeOf(shop().printingMaterial("petg"), 45, 1) == "none");
    CHECK(codeOf(shop().printingMaterial("paht-cf"), 100, 1) == "none");
}

TEST_CASE("Conditions that are no conditions are refused") {
    const PrintingMaterial& m = shop().printingMaterial("petg");
    const double nan = std::nan(""), infinity = std::numeric_limits<double>::infinity();
    CHECK(codeOf(m, nan, 0) == "temperature_too_low");
    CHECK(codeOf(m, -60, 0) == "temperature_too_low");
    CHECK(codeOf(m, 23, -1) == "duration_negative");
    CHECK(codeOf(m, 23, infinity) == "duration_negative");
    CHECK_THROWS_AS(modulusFactor(shop().stockMaterial("pom"), 200, 0), InputFault);
}

TEST_CASE("Metal does not creep, POM keeps at 1000 h what its data sheet says") {
    const StockMaterial& al = shop().stockMaterial("al-6082");
    CHECK(modulusFactor(al, 23, 10000).value == 1);
    CHECK(modulusFactor(al, 60, 0).value == Approx(0.9815));
    const StockMaterial& pom = shop().stockMaterial("pom");
    CHECK(modulusFactor(pom, 23, 1000).value == Approx(pom.creepRatio1000h->value));
    // POM copolymer data sheet at m.moam.info, 2013 (read): creep modulus 2400 MPa at 1 h.
    CHECK(modulusFactor(pom, 23, 1).value * pom.modulus.value == Approx(2400).epsilon(0.02));
}
