// The commands of the cellar book: what they take, and which of them was asked for.
#pragma once

#include "host/book/stored_lots.hpp"
#include "host/cli/command_line.hpp"

#include <CLI/CLI.hpp>

#include <filesystem>
#include <string>
#include <vector>

namespace vatwright {

struct BookOptions {
  std::filesystem::path file;                  // --book; empty: the person's own
  std::vector<std::filesystem::path> plugins;  // --plugins
  std::string by, at, format = "text", out;
  std::string what;  // a lot, a sheet's file, a number, as the command takes it
  std::string sample, why, from, to, rules, recipe;
  std::int64_t corrects = 0;  // 0: none
  std::vector<std::string> readings, weighed, batches;

  std::filesystem::path book() const { return file.empty() ? book::default_file() : file; }
};

// Each gives the exit status: 0, or 1 where the book or a sheet does not hold. Throws BadInput.
int book_where(const BookOptions& options);
int book_check(const BookOptions& options);
int book_copy(const BookOptions& options);
int book_export(const BookOptions& options);
int book_import(const BookOptions& options);
int book_keep(const BookOptions& options);
int book_done(const BookOptions& options);
int book_measure(const BookOptions& options);
int book_withdraw(const BookOptions& options);
int book_lots(const BookOptions& options);
int book_lot(const BookOptions& options);
int book_history(const BookOptions& options);
int book_sign(const BookOptions& options);
int book_register(const BookOptions& options);
int book_stock(const BookOptions& options);
int book_learn(const BookOptions& options);

// When it is done, by --at, or now. Throws BadInput.
book::Moment book_hour(const BookOptions& options);

// For the recipes that take lots from the book: as of --at, or of now.
book::BookLots book_lots_of(const BookOptions& options);

// Keeps a sheet as `run --keep` does, and says so on standard error.
void keep_sheet(const BookOptions& options, const std::string& name, const std::string& sheet);

class BookCommands {
 public:
  // `options` must outlive it.
  BookCommands(CLI::App& app, BookOptions& options, const TypedWords& typed);

  bool parsed() const { return group_->parsed(); }
  int run() const;

 private:
  struct Verb {
    CLI::App* app;
    int (*run)(const BookOptions&);
  };
  CLI::App* verb(const char* name, const char* help, int (*does)(const BookOptions&));
  void add_files();
  void add_work();
  void add_looks();
  void format_option(CLI::App* sub, const std::vector<std::string>& formats);
  void person_options(CLI::App* sub);

  BookOptions& options_;
  CLI::App* group_;
  std::vector<Verb> verbs_;
};

}  // namespace vatwright
