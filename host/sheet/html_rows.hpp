// Many lots on one page, a lot a row, written as they are computed.
#pragma once

#include "host/batch/batch.hpp"
#include "host/sheet/html_page.hpp"

namespace vatwright {

class HtmlRows final : public RowWriter {
 public:
  explicit HtmlRows(const Prepared& ready);
  std::string head() const override;
  std::string row(const RowSheet& row) const override;
  std::string foot(const BatchCount& count, const Handled& handled) const override;

 private:
  struct Figure {
    std::size_t step;
    const ResultInfo* result;
    std::string name;
  };
  const Recipe& recipe_;
  PageName name_;
  std::vector<Figure> figures_;
  std::vector<std::string> rules_;
};

}  // namespace vatwright
