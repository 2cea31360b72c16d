#include "host/yaml/late_text.hpp"

#include "host/files/checksum.hpp"
#include "host/problem/problem.hpp"

#include <algorithm>

namespace vatwright {

const std::string& LateText::whole() const {
  const std::scoped_lock lock(reading_);
  if (!text_) {
    std::string text = file_->part(0, std::min(file_->size(), largest_table));
    if (checksum_of(text) != sum_)
      throw BadInput(Problem{{.file = table_.string()}, "was changed while it was in use", "start again"});
    text_ = std::move(text);
  }
  return *text_;
}

std::string LateText::part(std::size_t begin, std::size_t end) const {
  return file_ == nullptr ? text_->substr(begin, end - begin) : file_->part(begin, end - begin);
}

}  // namespace vatwright
