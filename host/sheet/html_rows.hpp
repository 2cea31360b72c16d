// Many lots on one page, a lot a row, written as they are computed.
#pragma once

#include "host/batch/batch.hpp"
#include "host/sheet/html_page.hpp"

namespace vatwright {

class HtmlRows final : public RowWriter {
 public:
  // `carried`: heads of what is carried along, which stands under the name of its lot.
  HtmlRows(const Prepared& ready, bool uncertain, std::vector<std::string> carried = {});
  bool verdict_leads() const override { return true; }
  std::string head(const BatchVerdict& verdict) const override;
  std::string row(const RowSheet& row) const override;
  std::string foot(const BatchVerdict& verdict) const override;

 private:
  struct Figure {
    std::size_t step;
    const ResultInfo* result;
    std::string name;
  };
  const Recipe& recipe_;
  PageName name_;
  std::vector<Figure> figures_;
  std::vector<std::string> rules_, carried_;
  bool uncertain_;
};

}  // namespace vatwright
