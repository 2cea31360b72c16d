#include "host/cli/book_commands.hpp"

namespace vatwright {

BookCommands::BookCommands(CLI::App& app, BookOptions& options, const TypedWords& typed)
    : options_(options), group_(app.add_subcommand("book", "the cellar book: what was planned, done and measured")) {
  if (!typed.may_mean(group_->get_name())) return;
  group_->require_subcommand(1);
  group_->fallthrough();
  add_work();
  add_looks();
  add_files();
}

int BookCommands::run() const {
  for (const auto& one : verbs_)
    if (one.app->parsed()) try {
        return one.run(options_);
      } catch (const sql::Trouble& trouble) {
        book::refuse(options_.book(), trouble);
      }
  return 2;
}

CLI::App* BookCommands::verb(const char* name, const char* help, int (*does)(const BookOptions&)) {
  auto* sub = group_->add_subcommand(name, help);
  sub->fallthrough();
  sub->add_option("--book", options_.file, "the book; without it the one that 'vatwright book where' names")
      ->type_name("FILE");
  verbs_.push_back({sub, does});
  return sub;
}

void BookCommands::format_option(CLI::App* sub, const std::vector<std::string>& formats) {
  std::string help;
  for (const auto& format : formats) help += (help.empty() ? "" : format == formats.back() ? " or " : ", ") + format;
  sub->add_option("--format", options_.format, help)->check(CLI::IsMember(formats));
}

void BookCommands::person_options(CLI::App* sub) {
  sub->add_option("--by", options_.by, "who did it, as you call that person")->type_name("NAME");
  sub->add_option("--at", options_.at, "when, if not now: such as '2026-10-03 09:30'")->type_name("TIME");
  format_option(sub, {"text", "json"});
}

void BookCommands::add_work() {
  const auto corrects = [&](CLI::App* sub) {
    sub->add_option("--corrects", options_.corrects, "the number of an earlier entry that this one stands in place of")
        ->type_name("N")
        ->check(CLI::PositiveNumber);
  };
  auto* keep = verb("keep", "a worksheet as planned work", &book_keep);
  keep->add_option("SHEET", options_.what, "a worksheet, written with --format json")->required();
  person_options(keep);
  auto* done = verb("done", "planned work as done, with what was really weighed", &book_done);
  done->add_option("ID", options_.what, "a sheet (12), a step of it (12.2), or an addition of the step (12.2.1)")
      ->required();
  done->add_option("--weighed", options_.weighed, "what the balance showed: '184 g', or 'SUBSTANCE=184 g' (repeatable)")
      ->type_name("AMOUNT")
      ->allow_extra_args(false);
  done->add_option("--batch", options_.batches, "the batch on the sack: CODE, or 'SUBSTANCE=CODE' (repeatable)")
      ->type_name("CODE")
      ->allow_extra_args(false);
  corrects(done);
  person_options(done);
  auto* measure = verb("measure", "readings of a lot; of a new lot, the first", &book_measure);
  measure->add_option("LOT", options_.what, "the lot, such as T7")->required();
  measure->add_option("READING", options_.readings, "such as 'pH=3.38' or 'free SO2=24 ± 2 mg/L'")->required();
  measure->add_option("--sample", options_.sample, "the code of the sample")->type_name("CODE");
  corrects(measure);
  person_options(measure);
  auto* sign = verb("sign", "a second person signs a sheet: it is computed anew and compared", &book_sign);
  sign->add_option("N", options_.what, "the number of the sheet")->required();
  sign->add_option("--recipe", options_.recipe,
                   "the recipe's file, to be compared; without it the one that the sheet names")
      ->type_name("RECIPE");
  person_options(sign);
  auto* withdraw =
      verb("withdraw", "an entry that was a slip: it stays to be read, and counts no more", &book_withdraw);
  withdraw->add_option("N", options_.corrects, "the number of the entry")->required()->check(CLI::PositiveNumber);
  withdraw->add_option("--why", options_.why, "what was wrong with it")->type_name("TEXT")->required();
  person_options(withdraw);
}

void BookCommands::add_looks() {
  const auto at = [&](CLI::App* sub) {
    sub->add_option("--at", options_.at, "as of that day or hour: such as 2026-10-03")->type_name("TIME");
  };
  const auto out = [&](CLI::App* sub) {
    sub->add_option("--out", options_.out, "write to this file instead of standard output")->type_name("FILE");
  };
  auto* lots = verb("lots", "all lots, with what is open", &book_lots);
  at(lots);
  format_option(lots, {"text", "json"});
  auto* lot = verb("lot", "one lot: its figures, what it was made of, what is open", &book_lot);
  lot->add_option("LOT", options_.what, "the lot, such as T7")->required();
  at(lot);
  format_option(lot, {"text", "json", "html"});
  out(lot);
  auto* history = verb("history", "all entries that have to do with a lot", &book_history);
  history->add_option("LOT", options_.what, "the lot, such as T7")->required();
  format_option(history, {"text", "json"});
  auto* list = verb("register", "what was done, in the form that a rule set's register asks for", &book_register);
  list->add_option("--rules", options_.rules, "EU or US; without it EU")->type_name("RULES");
  list->add_option("--from", options_.from, "from that day on")->type_name("DATE");
  list->add_option("--to", options_.to, "up to that day")->type_name("DATE");
  format_option(list, {"text", "csv", "html", "json"});
  out(list);
  format_option(verb("stock", "what was weighed of each substance and batch", &book_stock), {"text", "json"});
  auto* learn = verb("learn", "forecasts against what was measured after them", &book_learn);
  format_option(learn, {"text", "json", "html"});
  out(learn);
}

void BookCommands::add_files() {
  format_option(verb("where", "where the book is", &book_where), {"text", "json"});
  format_option(verb("check", "whether every byte of the book that counts is as it was written", &book_check),
                {"text", "json"});
  auto* copy = verb("copy", "a copy of the book, while it is in use", &book_copy);
  copy->add_option("FILE", options_.what, "the copy, which must not be there yet")->required();
  format_option(copy, {"text", "json"});
  auto* exports = verb("export", "all entries, a line of JSON each", &book_export);
  exports->add_option("--out", options_.out, "write to this file instead of standard output")->type_name("FILE");
  format_option(exports, {"json"});
  auto* import = verb("import", "entries that 'export' wrote, into a new book or one that they continue", &book_import);
  import->add_option("FILE", options_.what, "what 'vatwright book export' wrote")->required();
  format_option(import, {"text", "json"});
}

}  // namespace vatwright
