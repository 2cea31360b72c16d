#include "host/page/door.hpp"

#include "host/page/request.hpp"

#include <fmt/format.h>

#include <array>

namespace vatwright {
namespace {

// As long for any wrong token of its length, whatever it has in common with the right one.
bool same_secret(std::string_view a, std::string_view b) {
  if (a.size() != b.size()) return false;
  unsigned difference = 0;
  for (std::size_t i = 0; i < a.size(); ++i) difference |= static_cast<unsigned char>(a[i] ^ b[i]);
  return difference == 0;
}

std::string_view cookie_of(std::string_view cookies, std::string_view name) {
  while (!cookies.empty()) {
    const auto one = cookies.substr(0, cookies.find(';'));
    cookies.remove_prefix(std::min(cookies.size(), one.size() + 1));
    const auto pair = trimmed(one);
    if (pair.size() > name.size() && pair.starts_with(name) && pair[name.size()] == '=')
      return pair.substr(name.size() + 1);
  }
  return {};
}

Admission refused(int status, std::string words) { return {Admission::Kind::refused, status, std::move(words), {}}; }

}  // namespace

Admission admit(const Door& door, const Knock& knock) {
  constexpr int method_not_allowed = 405, misdirected = 421, forbidden = 403;
  const std::array hosts{fmt::format("127.0.0.1:{}", door.port), fmt::format("localhost:{}", door.port)};
  if (knock.host != hosts[0] && knock.host != hosts[1])
    return refused(misdirected, fmt::format("this page is at {} alone", hosts[0]));
  if (knock.method != "GET" && knock.method != "POST") return refused(method_not_allowed, "GET and POST are answered");
  if (knock.method == "GET") {
    const Request asked = read_request(knock.method, knock.target, {}, {});
    if (asked.path == "/" && same_secret(asked.fields.get("token"), door.token))
      return {Admission::Kind::sent_on,
              303,
              {},
              fmt::format("{}={}; Path=/; HttpOnly; SameSite=Strict", door.cookie_name(), door.token)};
  }
  if (!same_secret(cookie_of(knock.cookie, door.cookie_name()), door.token))
    return refused(forbidden, "open the address that 'vatwright page' printed when it was started, with its token");
  if (knock.fetch_site == "cross-site" || knock.fetch_site == "same-site")
    return refused(forbidden, "another site asked for this; open the page itself");
  const bool from_here = knock.origin == "http://" + hosts[0] || knock.origin == "http://" + hosts[1];
  if (!knock.origin.empty() && !from_here)
    return refused(forbidden, "another site asked for this; open the page itself");
  if (knock.method == "POST" && knock.origin.empty())
    return refused(forbidden, "a form says where it comes from; this one does not");
  return {Admission::Kind::in, 200, {}, {}};
}

}  // namespace vatwright
