#include "host/yaml/known_keys.hpp"

#include "units/nearest.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace vatwright {

void refuse_unknown_keys(const Document& doc, const Node& map, std::string_view thing,
                         std::span<const std::string_view> known) {
  for (const auto& entry : map.entries) {
    if (std::find(known.begin(), known.end(), entry.key) != known.end()) continue;
    doc.fail(entry.mark, fmt::format("{} has no {}", thing, in_quotes(entry.key)),
             did_you_mean(entry.key, known, fmt::format("it may have: {}", fmt::join(known, ", "))));
  }
}

}  // namespace vatwright
