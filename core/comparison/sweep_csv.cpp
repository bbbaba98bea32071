#include <algorithm>

#include "core/comparison/json_text.h"
#include "core/comparison/sweep.h"

namespace waybench {

namespace {

constexpr int kDigits = 9;

/// RFC 4180: quoted when it holds a comma, a quote or a line break; quotes doubled.
std::string field(const std::string& text) {
    if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
    std::string quoted = "\"";
    for (const char c : text) {
        if (c == '"') quoted += '"';
        quoted += c;
    }
    return quoted + '"';
}

std::string withUnit(const std::string& name, Unit unit) {
    return unit == Unit::none ? name : name + " [" + std::string(symbolOf(unit)) + "]";
}

void append(std::string& line, const std::string& text) {
    if (!line.empty()) line += ',';
    line += field(text);
}

}  // namespace

std::string sweepCsv(const Sweep& sweep) {
    std::string out, header;
    append(header, withUnit(sweep.variable.name, sweep.variable.unit));
    append(header, "valid");
    append(header, "verdict");
    append(header, "load case");
    for (const QuestionText& q : questions())
        for (const char* route : {"printed ", "machined "})
            for (const char* bound : {" value", " low", " high"})
                append(header, withUnit(route + q.key + bound, q.unit));
    append(header, "reason");
    out += header + "\r\n";
    for (const SweepPoint& point : sweep.points) {
        std::string line;
        append(line, numberText(point.at));
        append(line, point.valid ? "yes" : "no");
        append(line, point.valid ? nameOf(point.comparison.verdict.choice) : "");
        append(line, point.valid ? point.comparison.part.loadCaseAt(sweep.shownCase).name : "");
        for (const QuestionText& q : questions())
            for (const RouteOutcome* route : {&point.comparison.printed, &point.comparison.machined}) {
                if (!point.valid) {
                    line += ",,,";
                    continue;
                }
                const Figure& figure = route->at(q.question);
                for (const double x : {figure.value, figure.low, figure.high})
                    append(line, numberText(roundedToDigits(x, kDigits)));
            }
        append(line, point.why);
        out += line + "\r\n";
    }
    return out;
}

}  // namespace waybench
