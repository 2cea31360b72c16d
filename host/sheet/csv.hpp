// Worksheets as comma-separated values (RFC 4180): one sheet, a figure a line; many lots, a lot a line.
#pragma once

#include "host/batch/batch.hpp"

namespace vatwright {

std::string write_csv(const Worksheet& sheet);

class CsvRows final : public RowWriter {
 public:
  // `carried`: heads of what is carried along, which stands last.
  CsvRows(const Prepared& ready, bool uncertain, std::vector<std::string> carried = {});
  bool verdict_leads() const override { return false; }
  std::string head(const BatchVerdict& verdict) const override;
  std::string row(const RowSheet& row) const override;
  std::string foot(const BatchVerdict& verdict) const override;

 private:
  struct Figures {
    const Calculation* calculation;
    std::string before;  // "2 sulfite.addition: " where the recipe has several steps
  };
  std::vector<Figures> steps_;
  std::vector<std::string> carried_;
  std::string recipe_;  // which one it was, in every row: a row may be cut out
  bool uncertain_;
};

}  // namespace vatwright
