#pragma once
#include "core/structure/lattice.h"

namespace waybench::statics {

/// Two elements in neighbouring cells through whose common face material runs.
struct Joint {
    std::int32_t low, high;
    std::int8_t axis;
};

/// Joints of the lattice's elements. A face of which less than 2 % carries material is no joint (the sides of a slot
/// narrower than a cell would act as one), unless it is the strongest an element has.
std::vector<Joint> jointsOf(const Lattice& lattice, const MaterialField& field);

/// Face-connected group of each element, numbered in order of first element.
std::vector<int> groupsBy(const std::vector<Joint>& joints, std::size_t elements);

/// Gives every element its nodes: corners of joined elements are one node, others stay apart though they coincide.
void numberNodes(Lattice& lattice, const std::vector<Joint>& joints);

}  // namespace waybench::statics
