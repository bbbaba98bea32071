#include <cstring>

#include "core/fault/input_fault.h"
#include "core/geometry/vector.h"

namespace waybench {

namespace {
constexpr const char* kNames[] = {"+x", "-x", "+y", "-y", "+z", "-z"};
}

Vec3 unitVector(Direction d) {
    const int index = static_cast<int>(d);
    Vec3 v = Vec3::Zero();
    v[index / 2] = index % 2 == 0 ? 1.0 : -1.0;
    return v;
}

const char* nameOf(Direction d) {
    return kNames[static_cast<int>(d)];
}

Direction directionFromName(const char* s) {
    for (int i = 0; i < 6; ++i)
        if (std::strcmp(s, kNames[i]) == 0) return static_cast<Direction>(i);
    throw InputFault("direction_unknown", "", "", "'" + std::string(s) + "' is not a direction",
                     "write one of +x, -x, +y, -y, +z, -z");
}

Mat3 rotationToUp(Direction d) {
    Mat3 r;
    switch (d) {
        case Direction::plus_x:
            r << 0, 1, 0, 0, 0, 1, 1, 0, 0;
            break;
        case Direction::minus_x:
            r << 0, 0, 1, 0, 1, 0, -1, 0, 0;
            break;
        case Direction::plus_y:
            r << 0, 0, 1, 1, 0, 0, 0, 1, 0;
            break;
        case Direction::minus_y:
            r << 1, 0, 0, 0, 0, 1, 0, -1, 0;
            break;
        case Direction::plus_z:
            r.setIdentity();
            break;
        case Direction::minus_z:
            r << 1, 0, 0, 0, -1, 0, 0, 0, -1;
            break;
    }
    return r;
}

}  // namespace waybench
