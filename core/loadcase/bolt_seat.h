#pragma once
#include <array>
#include <optional>
#include <string>

#include "core/geometry/facet_cut.h"
#include "core/loadcase/load_case.h"

namespace waybench {

/// Where a bolted hold bears: on the wall of its bore, and round the ends of the bore on the flat ring that head, nut
/// or the part below press on.
struct BoltSeat {
    std::vector<std::uint32_t> wall;
    Prism head;  ///< point and axis are those of the bore, radius that of head or washer
    double boreRadius_mm = 0;
    double length_mm = 0;  ///< of the bore
    /// Place of the flat face along the axis, from head.point, at either end; nothing where none lies under the head.
    std::array<std::optional<double>, 2> level;

    double along(const Vec3& p) const { return head.axis.dot(p - head.point); }
    bool isOnFlat(const Solid& solid, std::uint32_t facet, std::size_t end) const;  ///< the face at that level
    bool isUnderHead(const Solid& solid, std::uint32_t facet) const;                ///< wholly, once the solid was cut
};

/// The seat of a bolted hold. A flat face counts up to a chamfer of a quarter of the bore's diameter beyond its end.
/// @param place names the hold in faults
/// @throws InputFault "face_not_found", "bolt_not_in_bore", "bolt_head_absurd", "bolt_without_seat"
BoltSeat boltSeatOf(const Solid& solid, const Hold& hold, const std::string& place);

[[noreturn]] void refuseSeat(const std::string& place);  ///< "bolt_without_seat"

/// The solid with the flat faces round the bore cut along the head, so that the ring under it is made of whole facets:
/// by a polygon whose area is that of the head.
Solid cutRoundHead(const BoltSeat& seat, const Solid& solid);

}  // namespace waybench
