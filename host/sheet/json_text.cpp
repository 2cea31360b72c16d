#include "host/sheet/json_text.hpp"

#include "host/yaml/document.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <vector>

namespace vatwright {

nlohmann::json parse_json(const std::string& name, const std::string& text) {
  using Parsed = nlohmann::json;
  constexpr int most_depth = 64;
  constexpr std::size_t most_values = 2'000'000;  // no sheet comes near; each takes 16 bytes and more
  std::size_t values = 0;
  std::vector<std::set<std::string>> members;
  const auto look = [&](int depth, Parsed::parse_event_t event, Parsed& parsed) {
    if (depth > most_depth)
      throw BadInput(fmt::format("{}: nested deeper than {}\n  look whether it is the right file", name, most_depth));
    if (++values > most_values)
      throw BadInput(fmt::format("{}: more than {} values\n  look whether it is the right file", name, most_values));
    if (event == Parsed::parse_event_t::object_start) members.emplace_back();
    if (event == Parsed::parse_event_t::object_end) members.pop_back();
    if (event == Parsed::parse_event_t::key && !members.back().insert(parsed.get<std::string>()).second)
      throw BadInput(
          fmt::format("{}: the member '{}' is there twice\n  the file was changed by hand: run its recipe again", name,
                      parsed.get<std::string>()));
    return true;
  };
  try {
    return Parsed::parse(text, look);
  } catch (const Parsed::parse_error& error) {
    const auto before = text.begin() + static_cast<std::ptrdiff_t>(std::min(error.byte, text.size()));
    throw BadInput(
        fmt::format("{}, line {}: this is not JSON, or not all of it\n  the file may have been cut short or "
                    "changed by hand: copy it anew, or run its recipe again",
                    name, 1 + std::count(text.begin(), before, '\n')));
  } catch (const Parsed::exception& error) {
    throw BadInput(
        fmt::format("{}: this is not JSON: {}\n  copy it anew, or run its recipe again", name, error.what()));
  }
}

}  // namespace vatwright
