// What is around every page: head, the way through it, and the foot.
#pragma once

#include "host/page/request.hpp"
#include "host/sheet/html_markup.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace vatwright {

// Where a page stands on the way from the lot to the sheet.
enum class Stage : unsigned char { lot, question, figures, other };

// One page, from its head to its foot, with `recipe` carried along by its links and forms.
class Frame {
 public:
  Frame(std::string title, Stage stage, const std::string& recipe);

  Markup& page() { return page_; }
  // A form that asks with what has been typed so far; close() ends it.
  void open_form(std::string_view action, std::string_view method = "get", std::string_view live = {});
  void hidden(std::string_view name, std::string_view value);
  void button(std::string_view words, std::string_view kind = {});
  // "/work?recipe=...&of=..."; the values are written as an address wants them.
  std::string link(std::string_view path, std::vector<std::pair<std::string, std::string>> more = {}) const;
  void anchor(std::string_view words, const std::string& href, std::string_view kind = {});
  void slips(const std::vector<std::string>& words, std::string_view heading);

  Response finish(int status = 200);

 private:
  void way(Stage stage);

  std::string recipe_;
  Markup page_;
};

// A page that says what went wrong, and leads back.
Response said_page(int status, const std::string& heading, const std::string& words);

}  // namespace vatwright
