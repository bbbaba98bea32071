#pragma once
#include <filesystem>
#include <string>
#include <vector>

#include "core/comparison/part.h"
#include "core/printed/which_way_up.h"

namespace waybench {

/// printed::rankedWaysUp for a part, under all its load cases.
/// @throws InputFault naming the part; Cancelled
std::vector<printed::WayUp> waysUp(const Part& part, const std::filesystem::path& folder, const Shop& shop,
                                   const std::string& tariff, const Task& task);

/// The document of resources/schema/ways_up.schema.json; same input, same bytes.
std::string waysUpJson(const Part& part, const std::vector<printed::WayUp>& ways);

}  // namespace waybench
