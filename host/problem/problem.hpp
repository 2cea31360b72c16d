// What a person can mend, once for every way of saying it: where, what was read and expected, how to mend it.
#pragma once

#include <memory>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace vatwright {

// Where in which file; of a whole file no line, of a command line nothing.
struct Place {
  std::string file{};
  int line = 0, column = 0;  // from 1; a column counts characters, as an editor does
  std::string excerpt{};     // the line
};

struct Problem {
  Place place{};
  std::string message{};  // what was read, and what was expected
  std::string hint{};     // how to mend it; the nearest known name where there is one
};

// "file:line:column: message", the line with a caret under the column, and the hint.
std::string words_of(const Problem& problem);

// {"status": 2, "problems": [...]}, by problems.schema.json; `status` is what the program ends with.
std::string json_of(const std::vector<Problem>& problems, int status);

// Bad input: nothing is computed. Whatever a person can mend reaches the command line as this.
class BadInput : public std::runtime_error {
 public:
  explicit BadInput(std::vector<Problem> problems);
  explicit BadInput(Problem problem) : BadInput(std::vector{std::move(problem)}) {}
  // "message\n  hint", of no place in a file.
  explicit BadInput(const std::string& words);

  const std::vector<Problem>& problems() const { return *problems_; }

 private:
  std::shared_ptr<const std::vector<Problem>> problems_;  // shared: an error must not fail while it is copied
};

// A plugin is missing, refused or failed. The text names the file and the remedy.
class PluginError : public std::runtime_error {
 public:
  explicit PluginError(const std::string& words);
  explicit PluginError(Problem problem);

  const Problem& problem() const { return *problem_; }

 private:
  std::shared_ptr<const Problem> problem_;
};

// The slips of a file, gathered so that all of them are told at once.
class Slips {
 public:
  // Whether it was refused; what it throws as BadInput is kept.
  template <class Read>
  bool in(Read read) {
    try {
      read();
      return false;
    } catch (const BadInput& error) {
      add(error.problems());
      return true;
    }
  }
  // What is known already is not added again.
  void add(const std::vector<Problem>& problems);

  bool none() const { return problems_.empty(); }
  // Throws BadInput with all of them, by file and line, unless there are none.
  void raise() const;

 private:
  std::vector<Problem> problems_;
};

}  // namespace vatwright
