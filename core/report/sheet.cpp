#include "core/report/sheet.h"

#include "core/report/content_hash.h"
#include "core/report/program_version.h"

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

}  // namespace waybench
