#include "core/report/sheet.h"

#include "core/report/content_hash.h"
#include "core/report/program_version.h"
#include "core/route/workings.h"

namespace waybench {

Sheet sheetFor(const Project& project, const Part& part, const std::string& documentType) {
    Sheet sheet;
    sheet.documentType = documentType;
    sheet.partName = part.name;
    sheet.projectTitle = project.title;
    sheet.identification = project.identification;
    sheet.author = project.author;
    sheet.date = project.date;
    sheet.fileHash = contentHash(projectJson(project));
    sheet.programVersion = kProgramVersion;
    return sheet;
}

SheetBlock risksBlock(const RouteOutcome& outcome) {
    SheetBlock block;
    block.heading = "What may go wrong";
    for (const Severity severity : {Severity::blocking, Severity::caution})
        for (const RouteWarning& w : outcome.warnings)
            if (w.severity == severity)
                block.lines.push_back((severity == Severity::blocking ? "CANNOT BE MADE SO: " : "") + w.text);
    return block;
}

std::string minutesText(double seconds) {
    return shown(seconds / 60, seconds < 600 ? 2 : 3);
}

SheetTable stepTable(const std::vector<Step>& steps) {
    SheetTable table;
    table.columns = {{"step", 6, false}, {"min", 1, true}, {"by hand, min", 1.2, true}};
    double all = 0, hands = 0;
    for (const Step& s : steps) {
        table.rows.push_back({s.name, minutesText(s.seconds), minutesText(s.hands_on_seconds)});
        all += s.seconds;
        hands += s.hands_on_seconds;
    }
    table.rows.push_back({"together", minutesText(all), minutesText(hands)});
    return table;
}

}  // namespace waybench
