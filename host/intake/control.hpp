// Whether the laboratory is right: the control samples of a table, each judged on a chart of its own over the days, and
// the results that are held back where it is not.
#pragma once

#include "host/intake/gauge.hpp"

namespace vatwright::intake {

// One control sample and one result of it: its days in the table, and what was kept before them.
class ControlChart {
 public:
  ControlChart(const Bench& bench, const Mapping& mapping, const ControlTarget& target)
      : bench_(bench), mapping_(mapping), target_(target) {}

  void add_past(std::vector<PastReading> past, const AnswerColumn& column);
  // An answer of each day of the table, in order.
  void add_day(const std::string& day, const Answer& answer, const AnswerColumn& column);

  // After the last day. Throws BadInput at the mapping's place: a target without ± where no trial says it.
  ControlVerdict verdict(const AnswerColumn& column);
  // Why a result of that day may not be used; empty where the laboratory was right.
  std::string held_back_on(const std::string& day) const;

 private:
  struct Point {
    std::string day;
    double value = 0;
  };
  struct Judged {
    std::string day, words;  // what to do; empty: right
    bool right = true;
  };
  void judge_last(const AnswerColumn& column);
  std::string limits(const AnswerColumn& column) const;

  const Bench& bench_;
  const Mapping& mapping_;
  const ControlTarget& target_;
  std::vector<Point> points_;
  std::vector<Judged> days_;  // of the table
  std::string found_ = "not read";
  std::string warning_;
  std::optional<Chart> chart_;
};

}  // namespace vatwright::intake
