#include "host/page/frame.hpp"

#include "host/sheet/phrases.hpp"

namespace vatwright {

Frame::Frame(std::string title, Stage stage, const std::string& recipe) : recipe_(recipe) {
  page_.own("<!DOCTYPE html>\n");
  page_.open("html", {{"lang", "en"}});
  page_.open("head");
  page_.leaf("meta", {{"charset", "utf-8"}});
  page_.leaf("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
  page_.leaf("meta", {{"name", "color-scheme"}, {"content", "light dark"}});
  page_.leaf("link", {{"rel", "icon"}, {"href", "data:,"}});
  page_.leaf("link", {{"rel", "stylesheet"}, {"href", "/page.css"}});
  page_.open("script", {{"src", "/page.js"}, {"defer", "defer"}});
  page_.close();
  page_.element("title", title + " - vatwright");
  page_.close();
  page_.open("body");
  page_.element("a", "Skip to the page", {{"class", "skip"}, {"href", "#main"}});
  page_.open("header");
  page_.open("p", {{"class", "brand"}});
  page_.element("a", "vatwright", {{"href", "/"}});
  page_.element("small", " from the lab's figures to the cellar's work");
  page_.close();
  way(stage);
  page_.element("a", "Cellar book", {{"href", "/book"}});
  page_.close();
  page_.open("main", {{"id", "main"}});
  page_.element("h1", title);
}

void Frame::way(Stage stage) {
  struct Step {
    Stage stage;
    std::string_view words, path;
  };
  const Step steps[] = {{Stage::lot, "The lot", "/lots"},
                        {Stage::question, "The question", "/questions"},
                        {Stage::figures, "Figures and sheet", ""}};
  page_.open("nav", {{"aria-label", "the way"}});
  page_.open("ol", {{"class", "way"}});
  for (const auto& step : steps) {
    page_.open("li", {{step.stage == stage ? "aria-current" : "", "step"}});
    const bool passed = step.stage < stage && stage != Stage::other && !recipe_.empty();
    if (passed && !step.path.empty())
      anchor(step.words, link(step.path));
    else
      page_.text(step.words);
    page_.close();
  }
  page_.close();
  page_.close();
}

void Frame::open_form(std::string_view action, std::string_view method, std::string_view live) {
  const bool sends = method == "post";
  page_.open("form", {{"action", action},
                      {"method", method},
                      {sends ? "enctype" : "", "multipart/form-data"},
                      {"class", "way-on"},
                      {live.empty() ? "" : "data-live", live}});
  if (!recipe_.empty() && !sends) hidden("recipe", recipe_);
}

void Frame::hidden(std::string_view name, std::string_view value) {
  page_.leaf("input", {{"type", "hidden"}, {"name", name}, {"value", value}});
}

void Frame::button(std::string_view words, std::string_view kind) {
  page_.element("button", words, {{"type", "submit"}, {kind.empty() ? "" : "class", kind}});
}

std::string Frame::link(std::string_view path, std::vector<std::pair<std::string, std::string>> more) const {
  std::string out(path);
  char before = '?';
  if (!recipe_.empty()) more.insert(more.begin(), {"recipe", recipe_});
  for (const auto& [name, value] : more) {
    out.append(1, before).append(in_address(name)).append("=").append(in_address(value));
    before = '&';
  }
  return out;
}

void Frame::anchor(std::string_view words, const std::string& href, std::string_view kind) {
  page_.element("a", words, {{"href", href}, {kind.empty() ? "" : "class", kind}});
}

void Frame::slips(const std::vector<std::string>& words, std::string_view heading) {
  if (words.empty()) return;
  page_.open("div", {{"class", "failing"}, {"role", "alert"}});
  page_.element("h2", heading);
  for (const auto& word : words) page_.element("p", word);
  page_.close();
}

Response Frame::finish(int status) {
  page_.close();
  page_.open("footer");
  page_.element("p", sheet_foot);
  page_.close();
  page_.close();
  page_.close();
  return {.status = status, .body = page_.document()};
}

Response said_page(int status, const std::string& heading, const std::string& words) {
  Frame frame(heading, Stage::other, {});
  frame.page().element("p", words);
  frame.page().open("p");
  frame.anchor("Begin with a lot", "/");
  frame.page().close();
  return frame.finish(status);
}

}  // namespace vatwright
