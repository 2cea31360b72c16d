#include "host/files/trusted.hpp"

#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

namespace vatwright {

namespace fs = std::filesystem;

std::string written_by_others(const fs::path& path) {
  struct stat facts {};
  if (::stat(path.c_str(), &facts) != 0) return path.string() + ": " + std::strerror(errno);
  if ((facts.st_mode & S_IWOTH) != 0)
    return path.string() + ": writable by everybody, refused; take that right away with 'chmod o-w'";
  if (facts.st_uid != 0 && facts.st_uid != ::geteuid())
    return path.string() +
           ": belongs to another user, who may change it, refused; copy it, or change its owner with "
           "'chown'";
  if ((facts.st_mode & S_IWGRP) != 0 && facts.st_gid != 0 && facts.st_gid != ::getegid())
    return path.string() + ": writable by a group that is not yours, refused; take that right away with 'chmod g-w'";
  return {};
}

std::string replaceable_by_others(const fs::path& path) {
  for (auto above = path.parent_path(); above != above.parent_path(); above = above.parent_path()) {
    struct stat facts {};
    if (::stat(above.c_str(), &facts) == 0 && (facts.st_mode & S_IWOTH) != 0 && (facts.st_mode & S_ISVTX) == 0)
      return above.string() +
             ": writable by everybody, refused with what stands below it; take that right away with "
             "'chmod o-w'";
  }
  return {};
}

}  // namespace vatwright
