// A page as a browser without script sees it: its forms, its links, its words.
#pragma once

#include "host/bench/rule_sets.hpp"
#include "host/cli/verify.hpp"
#include "host/page/answer.hpp"
#include "tests/host/house.hpp"

#include <regex>
#include <string>
#include <vector>

namespace vatwright::test {

struct PageHouse : TestHouse {
  PageHouse() { registry.all(); }

  Premises premises() {
    Premises out{registry, catalogue, bench(), {}, [this](const std::string& name, const std::string& text) {
                   const Verdict v = verify_text(bench(), name, text);
                   return Verified{v.about, v.differences, v.not_compared, v.compared, v.checks, v.failing};
                 }};
    for (const auto& name : rule_names(rules_dir)) {
      const RuleSet set = named_rules(rules_dir, name);
      out.rule_sets.push_back({name, set.title(), set.note()});
    }
    return out;
  }

  Response get(const std::string& target) { return answer(read_request("GET", target, {}, {}), premises()); }
  Response post(const std::string& path, const Fields& fields) { return answer({"POST", path, fields}, premises()); }
  Response ask(const std::string& path, const Fields& fields) { return answer({"GET", path, fields}, premises()); }
};

inline std::string without_escapes(std::string text) {
  const std::pair<const char*, const char*> signs[] = {
      {"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&#39;", "'"}, {"&amp;", "&"}};
  for (const auto& [escape, sign] : signs)
    for (auto at = text.find(escape); at != std::string::npos; at = text.find(escape, at + 1))
      text.replace(at, std::string(escape).size(), sign);
  return text;
}

inline std::string attribute(const std::string& tag, const std::string& name) {
  const auto at = tag.find(" " + name + "=\"");
  if (at == std::string::npos) return {};
  const auto from = at + name.size() + 3;
  return without_escapes(tag.substr(from, tag.find('"', from) - from));
}

// What would be sent by the first form to `action` as it stands.
inline Fields form_of(const std::string& html, const std::string& action) {
  Fields out;
  const auto begin = html.find("<form action=\"" + action + "\"");
  if (begin == std::string::npos) return out;
  const std::string form = html.substr(begin, html.find("</form>", begin) - begin);
  std::string list;
  for (auto at = form.find('<'); at != std::string::npos; at = form.find('<', at + 1)) {
    const std::string tag = form.substr(at, form.find('>', at) - at);
    if (tag.starts_with("<select")) list = attribute(tag, "name");
    if (tag.starts_with("<option") && !attribute(tag, "selected").empty()) out.add(list, attribute(tag, "value"));
    if (!tag.starts_with("<input")) continue;
    const auto type = attribute(tag, "type");
    if ((type == "radio" || type == "checkbox") && attribute(tag, "checked").empty()) continue;
    if (type != "file") out.add(attribute(tag, "name"), attribute(tag, "value"));
  }
  return out;
}

// Where the links with these words lead.
inline std::string link_of(const std::string& html, const std::string& words) {
  const auto at = html.find(">" + words + "</a>");
  if (at == std::string::npos) return {};
  return attribute(html.substr(html.rfind("<a ", at), at - html.rfind("<a ", at)), "href");
}

}  // namespace vatwright::test
