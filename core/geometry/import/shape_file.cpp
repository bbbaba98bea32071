#include "core/geometry/import/shape_file.h"

#include "core/fault/input_fault.h"
#include "core/geometry/import/dxf.h"
#include "core/geometry/import/step.h"
#include "core/geometry/import/stl.h"

namespace waybench {

namespace {

bool isDrawingName(const std::filesystem::path& path) {
    const std::string ending = path.extension().string();
    return ending == ".dxf" || ending == ".DXF" || ending == ".Dxf";
}

}  // namespace

std::ifstream opened(const std::filesystem::path& path, const std::filesystem::path& asGiven) {
    std::error_code error;
    const std::string name = asGiven.string();
    if (asGiven.empty())
        throw InputFault("file_missing", "", "shape", "no file is named", "choose the file the shape comes from");
    if (!std::filesystem::exists(path, error))
        throw InputFault("file_missing", name, "", "there is no such file",
                         "check the name; it is looked for at " + path.string());
    if (!std::filesystem::is_regular_file(path, error))
        throw InputFault("file_missing", name, "", "it is not a file", "name a file, not a folder or device");
    std::ifstream in(path, std::ios::binary);
    if (!in) throw InputFault("file_missing", name, "", "the file cannot be opened", "check that you may read it");
    return in;
}

FileMeasure measured(const std::filesystem::path& path, const std::filesystem::path& asGiven) {
    std::ifstream in = opened(path, asGiven);
    if (isStepName(path)) return {};
    if (!isDrawingName(path)) return {false, sizeOfStl(in, asGiven.string())};
    const DrawingMeasure drawing = measuredDxf(in, asGiven.string());
    return {drawing.statesUnit, Vec3(drawing.size.x(), drawing.size.y(), 0)};
}

}  // namespace waybench
