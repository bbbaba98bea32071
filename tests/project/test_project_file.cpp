#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <random>

#include "core/fault/input_fault.h"
#include "tests/project/sample_project.h"

using namespace waybench;
using namespace waybench::testing;
using Document = nlohmann::ordered_json;

namespace {

Document sample() {
    return Document::parse(projectJson(sampleProject()));
}

/// The fault reading the document gives; fails the test when it is read.
InputFault faultOf(const std::string& text) {
    try {
        projectFromJson(text, "rig.waybench");
    } catch (const InputFault& fault) {
        CHECK(fault.file() == "rig.waybench");
        CHECK_FALSE(fault.problem().empty());
        CHECK_FALSE(fault.remedy().empty());
        return fault;
    }
    FAIL("the document was read: " << text.substr(0, 200));
    throw std::logic_error("unreachable");
}
InputFault faultOf(const Document& document) {
    return faultOf(document.dump());
}

}  // namespace

TEST_CASE("a project read back is the project saved, and saving again gives the same bytes") {
    const Project project = sampleProject();
    const std::string text = projectJson(project);
    ReadReport report;
    const Project again = projectFromJson(text, "rig.waybench", &report);
    CHECK(report.notes.empty());
    CHECK(report.defaultsTaken.empty());
    CHECK(again.title == project.title);
    CHECK(again.note == project.note);
    REQUIRE(again.parts.size() == project.parts.size());
    for (std::size_t i = 0; i < project.parts.size(); ++i)
        CHECK(again.parts[i] == project.parts[i]);
    CHECK(projectJson(again) == text);
}

TEST_CASE("one load case is written as ever, several as a list, and a list of one reads as one") {
    Document d = sample();
    CHECK(d["parts"][0].contains("load_case"));
    CHECK_FALSE(d["parts"][0].contains("load_cases"));
    CHECK_FALSE(d["parts"][0]["load_case"]["holds"][0].contains("kind"));
    CHECK_FALSE(d["parts"][3].contains("load_case"));
    REQUIRE(d["parts"][3]["load_cases"].size() == 3);
    CHECK(d["parts"][3]["load_cases"][1]["holds"][0]["kind"] == "bolted");
    CHECK(d["parts"][3]["load_cases"][1]["holds"][0]["head_diameter_mm"] == 11.5);
    CHECK(d["parts"][3]["load_cases"][1]["holds"][2]["kind"] == "sliding");

    d["parts"][0]["load_cases"] = Document::array({d["parts"][0]["load_case"]});
    d["parts"][0].erase("load_case");
    CHECK(projectFromJson(d.dump(), "f").parts[0] == sampleProject().parts[0]);
}

TEST_CASE("load cases said in both ways, none in the list, or an unknown hold are refused with their place") {
    Document d = sample();
    d["parts"][3]["load_case"] = d["parts"][0]["load_case"];
    CHECK(faultOf(d).code() == "load_case_said_twice");
    d = sample();
    d["parts"][3]["load_cases"] = Document::array();
    CHECK(faultOf(d).code() == "load_cases_empty");
    d = sample();
    d["parts"][3].erase("load_cases");
    CHECK(faultOf(d).code() == "key_missing");
    d = sample();
    d["parts"][3]["load_cases"][1]["holds"][0]["kind"] = "boltd";
    CHECK(faultOf(d).place() == "parts[3].load_cases[1].holds[0].kind");
    CHECK(faultOf(d).remedy().find("'bolted'") != std::string::npos);
    d = sample();
    d["parts"][3]["load_cases"][1]["holds"][0]["head_diameter_mm"] = -1;
    CHECK(faultOf(d).code() == "value_out_of_range");
}

TEST_CASE("unknown keys of the first load case stay with it when a second one comes or goes") {
    Document d = sample();
    d["parts"][0]["load_case"]["colour"] = "red";
    d["parts"][0]["load_case"]["loads"][0]["remark"] = "guess";
    Project project = projectFromJson(d.dump(), "f");
    project.parts[0].furtherLoadCases = {sampleProject().parts[3].furtherLoadCases[0]};
    const Document both = Document::parse(projectJson(project));
    CHECK(both["parts"][0]["load_cases"][0]["colour"] == "red");
    CHECK(both["parts"][0]["load_cases"][0]["loads"][0]["remark"] == "guess");
    CHECK_FALSE(both["parts"][0]["load_cases"][1].contains("colour"));
    Project again = projectFromJson(both.dump(), "f");
    again.parts[0].furtherLoadCases.clear();
    CHECK(Document::parse(projectJson(again))["parts"][0]["load_case"]["colour"] == "red");
}

TEST_CASE("unknown keys are reported with the nearest known name, kept, and written back") {
    Document d = sample();
    d["colour"] = {{"name", "red"}, {"n", 1.5}};
    d["parts"][1]["load_case"]["deflection_limt_mm"] = 0.3;
    d["parts"][0]["load_case"]["loads"][1]["remark"] = "guess";
    ReadReport report;
    const Project project = projectFromJson(d.dump(), "f", &report);
    REQUIRE(report.notes.size() == 3);
    std::string all;
    for (const std::string& note : report.notes)
        all += note + "\n";
    CHECK(all.find("parts[1].load_case.deflection_limt_mm") != std::string::npos);
    CHECK(all.find("is 'deflection_limit_mm' meant?") != std::string::npos);
    CHECK(all.find("parts[0].load_case.loads[1].remark") != std::string::npos);
    const std::string saved = projectJson(project);
    const Document back = Document::parse(saved);
    CHECK(back["colour"]["n"] == 1.5);
    CHECK(back["parts"][1]["load_case"]["deflection_limt_mm"] == 0.3);
    CHECK(back["parts"][0]["load_case"]["loads"][1]["remark"] == "guess");
    CHECK(projectJson(projectFromJson(saved, "f")) == saved);
}

TEST_CASE("an unknown key whose place was deleted is left out without harm") {
    Document d = sample();
    d["parts"][0]["load_case"]["loads"][3]["remark"] = "guess";
    Project project = projectFromJson(d.dump(), "f");
    project.parts[0].loadCase.loads.resize(1);
    CHECK(projectJson(project).find("guess") == std::string::npos);
}

TEST_CASE("a weight for no question is reported and kept") {
    Document d = sample();
    d["parts"][0]["weights"]["costs"] = 0.5;
    ReadReport report;
    const Project project = projectFromJson(d.dump(), "f", &report);
    REQUIRE(report.notes.size() == 1);
    CHECK(report.notes[0].find("is 'cost' meant?") != std::string::npos);
    CHECK(projectJson(project).find("\"costs\"") != std::string::npos);
}

TEST_CASE("a file from the future is refused with the version it needs") {
    Document d = sample();
    d["version"] = 7;
    d["parts"] = "whatever the future holds";
    const InputFault fault = faultOf(d);
    CHECK(fault.code() == "schema_newer");
    CHECK(fault.problem().find("version 7") != std::string::npos);
}

TEST_CASE("what is missing is named by its place") {
    for (const char* pointer :
         {"/schema", "/version", "/parts", "/parts/2/name", "/parts/2/shape", "/parts/2/load_case",
          "/parts/2/load_case/holds", "/parts/2/load_case/loads", "/parts/2/load_case/measured",
          "/parts/2/load_case/deflection_limit_mm", "/parts/2/load_case/loads/0/force_N",
          "/parts/2/load_case/loads/0/face", "/parts/2/load_case/measured/direction"}) {
        INFO(pointer);
        Document d = sample();
        const Document::json_pointer at(pointer);
        d[at.parent_pointer()].erase(at.back());
        const InputFault fault = faultOf(d);
        CHECK(fault.code() == "key_missing");
        CHECK(fault.place().find(at.back()) != std::string::npos);
        if (std::string(pointer).find("/parts/2/") == 0) CHECK(fault.place().find("parts[2].") == 0);
    }
}

TEST_CASE("every value of the wrong type is refused by its place or read, never silently turned") {
    const Document whole = sample();
    const auto flat = whole.flatten();
    std::size_t refused = 0;
    for (const auto& [pointer, value] : flat.items()) {
        INFO(pointer);
        for (const Document& other : {Document(true), Document("text"), Document(3.25), Document(nullptr),
                                      Document::array({1, 2}), Document::object({{"a", 1}})}) {
            if (other.type() == value.type() || (other.is_number() && value.is_number())) continue;
            Document d = whole;
            d[Document::json_pointer(pointer)] = other;
            const InputFault fault = faultOf(d);
            CHECK((fault.code() == "value_wrong_type" || fault.code() == "value_unknown"));
            CHECK_FALSE(fault.place().empty());
            ++refused;
        }
    }
    CHECK(refused > 500);
}

TEST_CASE("absurd numbers are refused by their place") {
    const auto with = [](const char* pointer, const Document& value) {
        Document d = sample();
        d[Document::json_pointer(pointer)] = value;
        return faultOf(d);
    };
    CHECK(with("/parts/2/load_case/deflection_limit_mm", -0.1).place() == "parts[2].load_case.deflection_limit_mm");
    CHECK(with("/parts/2/load_case/deflection_limit_mm", 1e300).code() == "value_out_of_range");
    CHECK(with("/parts/0/load_case/loads/0/force_N/1", 1e30).place() == "parts[0].load_case.loads[0].force_N[1]");
    CHECK(with("/parts/1/shape/thickness_mm", 0).place() == "parts[1].shape.thickness_mm");
    CHECK(with("/parts/1/shape/thickness_mm", 1e12).code() == "value_out_of_range");
    CHECK(with("/parts/0/shape/dimensions/length", 1e9).place() == "parts[0].shape.dimensions.length");
    CHECK(with("/parts/0/load_case/temperature_C", -300).code() == "value_out_of_range");
    CHECK(with("/parts/0/load_case/load_spread", 1.5).code() == "value_out_of_range");
    CHECK(with("/parts/0/weights/cost", 2).place() == "parts[0].weights.cost");
    CHECK(with("/parts/0/load_case/measured/direction", Document::array({0, 0, 0})).code() == "direction_zero");
    CHECK(with("/parts/0/printed/recipe/walls", 2.5).place() == "parts[0].printed.recipe.walls");
    CHECK(with("/parts/0/printed/recipe/layer_thickness_mm", 5).place() ==
          "parts[0].printed.recipe.layer_thickness_mm");
}

TEST_CASE("a file with the recipe's former keys is read, and written with those of today") {
    std::string text = projectJson(sampleProject());
    const auto rename = [&](const std::string& from, const std::string& to) {
        const std::size_t at = text.find("\"" + from + "\"");
        REQUIRE(at != std::string::npos);
        text.replace(at + 1, from.size(), to);
    };
    rename("layer_thickness_mm", "layer_height_mm");
    rename("first_layer_thickness_mm", "first_layer_height_mm");
    rename("brim_reach_mm", "brim_width_mm");
    CHECK(projectJson(projectFromJson(text, "f")) == projectJson(sampleProject()));
}

TEST_CASE("numbers beyond a double, keys twice and text after the end are refused with line or key") {
    const std::string text = projectJson(sampleProject());
    const auto replaced = [&](const std::string& from, const std::string& to) {
        std::string changed = text;
        changed.replace(changed.find(from), from.size(), to);
        return changed;
    };
    const InputFault huge = faultOf(replaced("\"deflection_limit_mm\": 0.1", "\"deflection_limit_mm\": 1e999"));
    CHECK(huge.code() == "value_out_of_range");
    CHECK(huge.place().find("line ") == 0);
    CHECK(faultOf(replaced("\"deflection_limit_mm\": 0.1", "\"deflection_limit_mm\": NaN")).code() == "not_json");
    CHECK(faultOf(replaced("\"version\": 1", "\"version\": 1, \"version\": 1")).code() == "key_twice");
    CHECK(faultOf(text + "x").code() == "not_json");
    CHECK(faultOf(std::string()).code() == "not_json");
    CHECK(faultOf(std::string("\x00\xff", 2)).code() == "not_json");
    const InputFault broken = faultOf(std::string("{\n  \"schema\": \"waybench.project\"\n  \"version\": 1\n}"));
    CHECK(broken.place() == "line 3, column 11");
    CHECK(faultOf(std::string(100000, '[')).code() == "not_json");
    const auto remedyOf = [&](const std::string& number) {
        return faultOf(replaced("\"deflection_limit_mm\": 0.1", "\"deflection_limit_mm\": " + number)).remedy();
    };
    CHECK(remedyOf("6,5").find("decimal point") != std::string::npos);
    CHECK(remedyOf("6 5").find("decimal point") == std::string::npos);
}

TEST_CASE("a drawing without a thickness and a family there is not are refused by their place") {
    Document plain = Document::parse(projectJson(sampleProject()));
    Document noThickness = plain, noFamily = plain;
    noThickness["parts"][1]["shape"].erase("thickness_mm");
    noFamily["parts"][0]["shape"]["family"] = "sprocket";
    CHECK(faultOf(noThickness.dump()).place() == "parts[1].shape.thickness_mm");
    CHECK(faultOf(noFamily.dump()).code() == "family_unknown");
    CHECK(faultOf(noFamily.dump()).place() == "parts[0].shape.family");
}

TEST_CASE("choices that do not exist name those that do") {
    Document d = sample();
    d["parts"][0]["load_case"]["duration"] = "cyclc";
    const InputFault fault = faultOf(d);
    CHECK(fault.code() == "value_unknown");
    CHECK(fault.remedy().find("brief, hours, cyclic") != std::string::npos);
    CHECK(fault.remedy().find("is 'cyclic' meant?") != std::string::npos);
}

TEST_CASE("two parts of one name, two shapes of one part, a face named twice are refused") {
    Document d = sample();
    d["parts"][1]["name"] = "plate";
    CHECK(faultOf(d).code() == "part_name_twice");
    d = sample();
    d["parts"][1]["shape"]["family"] = "plate";
    CHECK(faultOf(d).code() == "shape_said_twice");
    d = sample();
    d["parts"][0]["load_case"]["holds"][0]["point"] = Document::array({1, 2, 3});
    CHECK(faultOf(d).code() == "face_said_twice");
}

TEST_CASE("what a short file leaves out takes its default and is reported") {
    const char* text = R"({"schema": "waybench.project", "version": 1, "parts": [{"name": "a",
        "shape": {"family": "plate"}, "load_case": {"holds": [{"face": "b"}], "loads": [],
        "measured": {"face": "b", "direction": [0, 0, 2]}, "deflection_limit_mm": 0.2}}]})";
    ReadReport report;
    const Project project = projectFromJson(text, "f", &report);
    CHECK(project.parts[0].recipe == printed::Recipe());
    CHECK(project.parts[0].loadCase.strengthFactor == 2);
    CHECK(project.parts[0].loadCase.measuredDirection == Vec3(0, 0, 1));
    CHECK(report.notes.empty());
    CHECK_FALSE(report.defaultsTaken.empty());
}

TEST_CASE("an unknown part is refused with the names there are") {
    try {
        sampleProject().part("plat");
        FAIL("found");
    } catch (const InputFault& fault) {
        CHECK(fault.code() == "part_unknown");
        CHECK(fault.remedy().find("'plate' meant?") != std::string::npos);
        CHECK(fault.remedy().find("'drawn'") != std::string::npos);
    }
}

TEST_CASE("flipped and missing bytes give a fault or a project, never a crash") {
    const std::string text = projectJson(sampleProject());
    std::mt19937 random(42);
    std::uniform_int_distribution<std::size_t> place(0, text.size() - 1);
    std::uniform_int_distribution<int> byte(0, 255), count(1, 4), kind(0, 3);
    int faults = 0, read = 0;
    for (int i = 0; i < 2000; ++i) {
        std::string damaged = text;
        switch (kind(random)) {
            case 0:
                damaged.resize(place(random));
                break;
            case 1:
                damaged.erase(place(random), static_cast<std::size_t>(count(random)));
                break;
            default:
                for (int k = count(random); k > 0; --k)
                    damaged[place(random)] = static_cast<char>(byte(random));
        }
        try {
            const Project project = projectFromJson(damaged, "f");
            const std::string saved = projectJson(project);
            CHECK(projectJson(projectFromJson(saved, "f")) == saved);
            ++read;
        } catch (const InputFault& fault) {
            CHECK_FALSE(std::string(fault.what()).empty());
            ++faults;
        }
    }
    CHECK(faults > 100);
    CHECK(read > 10);
}

TEST_CASE("flipped values inside valid JSON give a fault or a project, never a crash") {
    const Document whole = sample();
    const auto flat = whole.flatten();
    std::vector<std::string> pointers;
    for (const auto& entry : flat.items())
        pointers.push_back(entry.key());
    std::mt19937 random(43);
    std::uniform_int_distribution<std::size_t> place(0, pointers.size() - 1);
    const std::vector<Document> values{-1,
                                       0,
                                       1e308,
                                       -1e308,
                                       5e-324,
                                       1u << 31,
                                       "",
                                       "gyroid",
                                       true,
                                       Document(nullptr),
                                       Document::array(),
                                       Document::object()};
    std::uniform_int_distribution<std::size_t> value(0, values.size() - 1);
    for (int i = 0; i < 1500; ++i) {
        Document d = whole;
        d[Document::json_pointer(pointers[place(random)])] = values[value(random)];
        try {
            const std::string saved = projectJson(projectFromJson(d.dump(), "f"));
            CHECK(projectJson(projectFromJson(saved, "f")) == saved);
        } catch (const InputFault& fault) {
            CHECK_FALSE(fault.code().empty());
        }
    }
}
