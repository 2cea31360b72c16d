// Who may ask the page: a browser on this machine that was given this run's token, from the page itself. A pure
// function of what a request says of itself.
#pragma once

#include <string>
#include <string_view>

namespace vatwright {

struct Door {
  std::string token;
  unsigned short port = 0;

  std::string cookie_name() const { return "vatwright-" + std::to_string(port); }
};

// The headers that count, empty where there is none.
struct Knock {
  std::string_view method, target, host, origin, cookie, fetch_site;
};

struct Admission {
  enum class Kind : unsigned char { in, sent_on, refused };
  Kind kind = Kind::refused;
  int status = 403;
  std::string words{};   // why it is refused, and what to do
  std::string cookie{};  // of one that is sent on, to be kept by the browser
};

Admission admit(const Door& door, const Knock& knock);

}  // namespace vatwright
