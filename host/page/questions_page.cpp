#include "host/page/frame.hpp"
#include "host/page/pages.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <map>

namespace vatwright {
namespace {

struct Question {
  std::string id, label, help, group, words;
};

std::string small_letters(std::string_view text) {
  std::string out(text);
  std::transform(out.begin(), out.end(), out.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return out;
}

std::string with_large_letter(std::string text) {
  if (!text.empty()) text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  return text;
}

Question question_of(const Manifest& plugin, const Calculation& c) {
  Question q{.id = fmt::format("{}.{}", plugin.name, c.name),
             .label = label_of(c),
             .help = c.label.empty() ? "" : std::string(c.help),
             .group = with_large_letter(std::string(c.group.empty() ? plugin.name : c.group)),
             .words = {}};
  q.words = q.id + " " + q.label + " " + q.help + " " + q.group;
  for (const auto alias : c.aliases) q.words += " " + std::string(alias);
  for (const auto& need : c.inputs)
    for (const auto alias : aliases_of(*need.input)) q.words += " " + std::string(alias);
  for (const auto* result : c.results) q.words += " " + std::string(result->name);
  q.words = small_letters(q.words);
  return q;
}

// Whether every word that is looked for stands somewhere.
bool found_by(const std::string& search, const Question& question) {
  std::string_view rest = search;
  while (!rest.empty()) {
    const auto word = rest.substr(0, rest.find(' '));
    rest.remove_prefix(std::min(rest.size(), word.size() + 1));
    if (question.words.find(word) == std::string::npos) return false;
  }
  return true;
}

}  // namespace

Response questions_page(const Request& request, const Draft& draft, const Premises& on) {
  const std::string recipe = text_of(draft).text, lot = request.fields.get("lot");
  const std::string search = request.fields.get("search");
  Frame frame("What do you want to know or do?", Stage::question, recipe);
  Markup& page = frame.page();
  std::string lots;
  for (const auto& each : draft.lots) lots += (lots.empty() ? "" : ", ") + each.name;
  if (!draft.lots.empty())
    page.element("p",
                 fmt::format("{} {}{}", draft.lots.size() == 1 ? "Lot" : "Lots", lots,
                             draft.steps.empty()
                                 ? ""
                                 : fmt::format("; {} done so far", draft.steps.size() == 1
                                                                       ? "one step"
                                                                       : fmt::format("{} steps", draft.steps.size()))),
                 {{"class", "what"}});
  frame.open_form("/questions", "get", "search");
  page.open("div", {{"class", "field search"}, {"role", "search"}});
  page.element("label", "Look for", {{"for", "search"}});
  page.leaf("input", {{"type", "search"}, {"id", "search"}, {"name", "search"}, {"value", search}});
  frame.button("Look");
  page.close();
  page.close();
  std::map<std::string, std::vector<Question>> groups;
  for (const Manifest* plugin : on.registry.all())
    for (const auto& c : plugin->calculations)
      if (auto q = question_of(*plugin, c); found_by(small_letters(search), q)) groups[q.group].push_back(std::move(q));
  page.open("div", {{"id", "found"}, {"data-part", ""}, {"aria-live", "polite"}, {"class", "questions"}});
  if (groups.empty()) page.element("p", "Nothing has these words. Try one of them alone.");
  for (const auto& [group, questions] : groups) {
    page.open("section");
    page.element("h2", group);
    page.open("ul");
    for (const auto& q : questions) {
      std::vector<std::pair<std::string, std::string>> of{{"of", q.id}};
      if (!lot.empty()) of.emplace_back("lot", lot);
      page.open("li");
      frame.anchor(q.label, frame.link("/ask", of), "question");
      page.element("small", q.help);
      page.open("small");
      frame.anchor("try it with a worked example", "/try?of=" + in_address(q.id));
      page.close();
      page.close();
    }
    page.close();
    page.close();
  }
  page.close();
  return frame.finish();
}

}  // namespace vatwright
