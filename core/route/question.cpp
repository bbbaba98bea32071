#include <stdexcept>

#include "core/route/outcome.h"

namespace waybench {

// Weights are our starting values, chosen so that a person's bound time and money lead; common practice, no source.
// Rows that only repeat another row (stiffness, machine time, carbon, setups) are shown and not ranked.
const std::vector<QuestionText>& questions() {
    static const std::vector<QuestionText> table{
        {Question::deflection, "deflection", "deflection", Unit::millimetre, true, true, 0.2,
         "Mean displacement of the measured face along the measured direction under the working load."},
        {Question::deflection_max, "deflection_max", "largest deflection", Unit::millimetre, true, false, 0,
         "Largest displacement anywhere on the surface under the working load."},
        {Question::stiffness, "stiffness", "stiffness", Unit::newton_per_millimetre, false, false, 0,
         "Total applied force over the deflection of the measured face."},
        {Question::strength_margin, "strength_margin", "strength margin", Unit::none, false, true, 0.2,
         "Strength that remains under duration, temperature and direction over the stress at the worst place."},
        {Question::temperature_margin, "temperature_margin", "temperature margin", Unit::kelvin, false, false, 0,
         "Highest temperature the material is used at under load, less the temperature of the load case."},
        {Question::mass, "mass", "mass of the part", Unit::gram, true, true, 0.1, "Mass of the finished part."},
        {Question::machine_time, "machine_time", "machine time", Unit::second, true, false, 0,
         "Time the printer or the mill is occupied, warm-up and setting up included."},
        {Question::hands_on_time, "hands_on_time", "hands-on time", Unit::second, true, true, 1.0,
         "Time a person is bound: preparing, setting up, watching where needed, removing, cleaning."},
        {Question::elapsed_time, "elapsed_time", "elapsed time", Unit::second, true, true, 0.5,
         "From starting work to the finished part in hand, nights and queues left out."},
        {Question::process_energy, "process_energy", "process energy", Unit::watt_hour, true, true, 0.1,
         "Electric energy the machine and its auxiliaries draw while the part is made."},
        {Question::embodied_energy, "embodied_energy", "embodied energy", Unit::megajoule, true, true, 0.1,
         "Primary energy in the material bought for the part, waste included, and in the electricity used."},
        {Question::carbon, "carbon", "carbon", Unit::gram, true, false, 0,
         "Carbon dioxide equivalent of the material bought and the electricity used."},
        {Question::cost, "cost", "cost", Unit::money, true, true, 0.8,
         "Material, machine time, hands-on time, wear and electricity at the tariff chosen."},
        {Question::stock, "stock", "stock used", Unit::gram, true, false, 0,
         "Material taken from the shelf or the spool: part plus waste."},
        {Question::waste, "waste", "waste", Unit::gram, true, true, 0.1,
         "Material that does not end up in the part: swarf and offcut, supports, skirt and purge."},
        {Question::accuracy, "accuracy", "accuracy of sizes", Unit::millimetre, true, true, 0.4,
         "Deviation of an outer size of this part's length to be reckoned with, plus or minus."},
        {Question::hole_accuracy, "hole_accuracy", "accuracy of holes", Unit::millimetre, true, true, 0.4,
         "Deviation of a hole's diameter to be reckoned with, plus or minus, as made without reaming."},
        {Question::setups, "setups", "setups", Unit::none, true, false, 0,
         "How often the part is put on the machine and located."},
    };
    return table;
}

const QuestionText& textOf(Question question) {
    for (const QuestionText& text : questions())
        if (text.question == question) return text;
    throw std::logic_error("a question has no text");
}

const QuestionText* questionNamed(const std::string& key) {
    for (const QuestionText& text : questions())
        if (text.key == key) return &text;
    return nullptr;
}

}  // namespace waybench
