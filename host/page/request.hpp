// What a browser asks and what it is answered, without a socket: fields by name, in their order.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace vatwright {

// The fields of a form. A name may stand several times, as ticked boxes do.
class Fields {
 public:
  void add(std::string name, std::string text) { all_.emplace_back(std::move(name), std::move(text)); }
  void set(std::string_view name, std::string text);  // in place of every one of that name
  // The last of that name, without the spaces around it; empty when there is none.
  std::string get(std::string_view name) const;
  bool has(std::string_view name) const;
  bool any_under(std::string_view beginning) const;
  std::vector<std::string> each(std::string_view name) const;
  const std::vector<std::pair<std::string, std::string>>& all() const { return all_; }

 private:
  std::vector<std::pair<std::string, std::string>> all_;
};

struct Request {
  std::string method, path;  // "GET", "/work"
  Fields fields;             // of the address and of the body
};

struct Response {
  int status = 200;
  std::string type = "text/html; charset=utf-8";
  std::string body{};
  std::string file{};      // the name to save it under; empty: it is shown
  bool is_sheet = false;   // shown within a page of ours, with a style sheet of its own
  std::string location{};  // where the browser is sent on to (status 303); empty: it stays
};

inline constexpr std::size_t most_fields = 20'000;

// "/work?of=a&lot=T%207" into path and fields, and the body of a form by its type
// (application/x-www-form-urlencoded or multipart/form-data; any other body is not looked at).
// Fields beyond `most_fields` are left out.
Request read_request(std::string_view method, std::string_view target, std::string_view type, std::string_view body);

// "T 7" -> "T%207": for an address.
std::string in_address(std::string_view text);

std::string_view trimmed(std::string_view text);

}  // namespace vatwright
