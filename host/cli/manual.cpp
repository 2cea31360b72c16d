#include "host/cli/manual.hpp"

#include "host/cli/command_line.hpp"
#include "host/describe/describe.hpp"
#include "host/files/version.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <string_view>

namespace vatwright {
namespace {

// One character of UTF-8 at `at`, which it moves past.
char32_t next_character(std::string_view text, std::size_t& at) {
  const auto first = static_cast<unsigned char>(text[at++]);
  if (first < 0x80) return first;
  const int more = first >= 0xF0 ? 3 : first >= 0xE0 ? 2 : 1;
  char32_t out = first & (0x3FU >> more);
  for (int i = 0; i < more && at < text.size(); ++i)
    out = (out << 6U) | (static_cast<unsigned char>(text[at++]) & 0x3FU);
  return out;
}

// Text that roff prints as it stands: hyphens that can be typed, nothing taken for a command.
std::string plain(std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const char32_t c = next_character(text, at);
    if (c == '\\')
      out += "\\e";
    else if (c == '-')
      out += "\\-";
    else if (c == '\'')
      out += "\\(aq";
    else if (c == '\n')
      out += "\n.br\n";
    else if (c >= 0x80)
      out += fmt::format("\\[u{:04X}]", static_cast<std::uint32_t>(c));
    else
      out += static_cast<char>(c);
  }
  return out.starts_with('.') ? "\\&" + out : out;
}

std::string bold(std::string_view text) { return "\\fB" + plain(text) + "\\fP"; }
std::string slanted(std::string_view text) { return "\\fI" + plain(text) + "\\fP"; }

class ManualPage {
 public:
  ManualPage(const CLI::App& app, House& house) : app_(app) {
    for (const Manifest* plugin : house.registry.all()) plugins_.push_back(description_of(*plugin));
  }

  std::string write() {
    line(fmt::format(".TH VATWRIGHT 1 \"\" \"vatwright {}\" \"User commands\"", program_version));
    line(".ad l\n.nh");  // neither stretched nor hyphenated: names and commands stay as they are typed
    section("NAME");
    const std::string about = app_.get_description();
    line("vatwright \\- " + plain(about.substr(0, about.find(':'))));
    section("SYNOPSIS");
    for (const auto& command : all_commands(app_)) synopsis(command);
    section("DESCRIPTION");
    line(plain(about));
    section("COMMANDS");
    for (const auto& command : all_commands(app_)) explain(command);
    section("OPTIONS OF ALL COMMANDS");
    for (const auto* option : options_of(app_)) explain(*option);
    calculations();
    section("EXIT STATUS");
    const std::string footer = app_.get_footer();
    line(plain(footer.substr(footer.find(": ") + 2)));
    section("EXAMPLES");
    examples();
    return out_;
  }

 private:
  void line(const std::string& text) { out_ += text + "\n"; }
  void section(std::string_view title) { line(fmt::format(".SH {}", title)); }

  void entry(const std::string& term, std::string_view help) {
    line(".TP\n" + term);
    line(plain(help));
  }

  static std::string argument(const CLI::Option& option) {
    const std::string more = option.get_items_expected_max() > 1 ? "..." : "";
    const std::string name = slanted(value_name(option)) + more;
    return option.get_required() ? " " + name : " [" + name + "]";
  }

  void synopsis(const NamedCommand& command) {
    std::string text = bold("vatwright " + command.name);
    for (const auto* option : arguments_of(*command.app)) text += argument(*option);
    line(text + " [" + slanted("OPTION") + "...]\n.br");
  }

  void explain(const NamedCommand& named) {
    const CLI::App& command = *named.app;
    std::string title = bold(named.name);
    for (const auto* option : arguments_of(command)) title += argument(*option);
    line(".SS " + title);
    line(plain(command.get_description()));
    for (const auto* option : arguments_of(command)) entry(slanted(value_name(*option)), option->get_description());
    for (const auto* option : options_of(command))
      if (!option->check_lname("help")) explain(*option);
  }

  void explain(const CLI::Option& option) {
    std::string names;
    for (const auto& name : option.get_snames()) names += bold("-" + name) + ", ";
    for (const auto& name : option.get_lnames()) names += bold("--" + name);
    const std::string value = value_name(option);
    entry(value.empty() ? names : names + " " + slanted(value), option.get_description());
  }

  void calculations() {
    section("CALCULATIONS");
    for (const auto& plugin : plugins_) {
      line(".SS " + plain(fmt::format("{}: {}", said(plugin, "name"), said(plugin, "help"))));
      for (const auto& one : plugin["calculations"]) calculation(one);
    }
  }

  void calculation(const Description& one) {
    entry(bold(said(one, "id")), said(one, "help"));
    std::string needed, taken;
    for (const auto& input : one["inputs"]) (input["required"] == true ? needed : taken) += "; " + input_words(input);
    for (const auto& choice : one["one of"])
      needed += fmt::format("; one of {}", fmt::join(choice.get<std::vector<std::string>>(), ", "));
    if (!needed.empty()) line(".br\n" + slanted("needs") + " " + plain(needed.substr(2)));
    if (!taken.empty()) line(".br\n" + slanted("may have") + " " + plain(taken.substr(2)));
  }

  static std::string input_words(const Description& input) {
    std::string out = said(input, "name");
    const std::string unit = said(input, "unit"), fallback = said(input, "default");
    if (!unit.empty() && unit != out) out += ", " + (unit == "1" ? "plain number" : unit);  // "pH" says it already
    if (!fallback.empty()) out += fmt::format(" ({})", fallback);
    return out;
  }

  // The first example of every plugin that has one for the command line.
  void examples() {
    for (const auto& plugin : plugins_) {
      const auto& all = plugin["calculations"];
      const auto at = std::find_if(all.begin(), all.end(), [](const Description& one) {
        return one.contains("example") && one["example"].contains("arguments");
      });
      if (at == all.end()) continue;
      std::string command = "vatwright compute " + said(*at, "id");
      for (const auto& word : (*at)["example"]["arguments"]) command += fmt::format(" '{}'", word.get<std::string>());
      entry(bold(command), said(*at, "help"));
    }
  }

  const CLI::App& app_;
  std::vector<Description> plugins_;  // what they say of themselves (host/describe/)
  std::string out_;
};

}  // namespace

std::string manual_page(const CLI::App& app, House& house) { return ManualPage(app, house).write(); }

}  // namespace vatwright
