// The reader of `verify`: JSON within its limits, and the recipe that it carries, computed anew.
#include "host/cli/verify.hpp"
#include "host/loader/plugin_file.hpp"
#include "tests/fuzz/input.hpp"

#include <nlohmann/json.hpp>

using namespace vatwright;

namespace {

// A million draws may be asked for and take their time; that is no hang.
bool asks_for_many_draws(const std::string& text) {
  constexpr int many = 300;
  const auto json = nlohmann::json::parse(text, nullptr, false);
  if (!json.is_object() || !json.contains("uncertainty") || !json["uncertainty"].is_object()) return false;
  const auto draws = json["uncertainty"].find("draws");
  return draws != json["uncertainty"].end() && draws->is_number() && draws->get<double>() > many;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text = fuzz::text_of(data, size);
  if (asks_for_many_draws(text)) return 0;
  try {
    verify_sheet(fuzz::bench(), fuzz::file_of(text));
  } catch (const BadInput&) {
  } catch (const PluginError& error) {
    // A plugin that is asked for and is not there; one that is there must not fail.
    if (std::string(error.what()).find("there is no plugin") == std::string::npos) throw;
  }
  return 0;
}
