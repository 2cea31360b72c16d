// A worksheet as blocks, in the order in which a person reads it. What a sheet says is said here, once; a writer gives
// each kind of block its shape, and knows nothing of additions, checks, lots or rules.
#pragma once

#include "host/bench/worksheet.hpp"
#include "host/sheet/to_do.hpp"

#include <optional>
#include <span>
#include <string>
#include <variant>
#include <vector>

namespace vatwright::blocks {

// "Step 1, lot " and "T7, 48.0 hL": words of ours, which a writer may put in capitals, and what others wrote, as it is.
struct Heading {
  std::string ours, theirs;

  std::string words() const { return ours + theirs; }
};

// Read before any work: "Fails", "Keep apart".
struct Alarm {
  std::string mark, words, remedy{};
  std::string title{};     // of a box of its own; empty: a line
  bool in_a_list = false;  // a quiet line, among tasks
};

// To be ticked off: "184 g", " of potassium metabisulfite into lot T7", "dose 3.83 g/hL", " of the whole lot". Work
// that is no addition is words alone.
struct Task {
  std::string amount{}, words{}, rate{}, rate_of{}, remark{};
};

// Stands where a task would, and is not to be ticked off.
struct Remark {
  std::string words;
  bool alone = false;  // in no list: with a capital where it is a paragraph
};

// Points to what stands elsewhere.
struct Pointer {
  std::string words;
};

// What a substance does, line by line.
struct Cautions {
  std::vector<HazardLine> lines;
};

// Name, value and what goes with it.
struct Figures {
  // Numbers used and where they come from; figures expected and what they are; before and after; what was made.
  enum class Of { used, expected, changed, made };
  struct Row {
    std::string name, value, also;  // before and after: nothing where it is the same
  };
  Of of;
  std::string label;
  std::vector<Row> rows;
};

struct Table {
  // Readings, line by line; what several inputs say; a list to tick off.
  enum class Of { readings, inputs, tasks };
  // How a column looks: words of a plugin, its numbers; anything; an amount, a
  // number of a list, where something goes.
  enum class Look { words, number, anything, amount, count, place };
  struct Column {
    std::string name;
    Look look;
  };
  struct Cell {
    std::string words;
    std::optional<double> share{};
  };
  Of of;
  std::string label;  // empty: that of its section
  std::vector<Column> columns;
  std::vector<std::vector<Cell>> rows;
};

struct Picture {
  const Chart* chart;  // of the worksheet
  std::string id;
};

struct Swatches {
  std::string title;
  std::span<const Swatch> all;
};

// Of checks `lead` says what holds, what fails and what somebody has to allow.
struct List {
  enum class Of { notes, cautions, checks, sequence };
  struct Line {
    std::string words;
    std::string lead{}, stress{};  // before and after the words, to be seen first
    std::string source{};
    bool fails = false;
  };
  Of of;
  std::vector<Line> lines{};
};

struct Block;

// What stands under one heading, or side by side.
struct Group {
  // Work; a substance that is handled; cautions and handling, and each of them; figures side by side, and one of them;
  // a heading alone.
  enum class Look { to_do, with_care, care, part_of_care, side_by_side, part, plain };
  Look look;
  Heading heading;
  std::vector<Block> blocks;
  bool goes_on = false;  // of the group before: its heading need not be told again
};

using Any = std::variant<Alarm, Task, Remark, Pointer, Cautions, Figures, Table, Picture, Swatches, List, Group>;
struct Block : Any {
  using Any::Any;

  const Any& any() const { return *this; }
};

struct Section {
  std::string id;
  Heading title;
  std::string about{};        // below the title
  std::string aside{};        // beside it
  std::string in_contents{};  // what a list of sections says of it; empty: it stands in none
  std::string alarm{};        // and what is amiss in it
  bool is_step = false;
  std::vector<Block> blocks{};
};

// A line about the whole sheet. What goes on says more of what stands before it.
struct About {
  std::string name, words;
  bool goes_on = false;
};

struct Sheet {
  bool brief = false;  // what to do alone, for one page
  std::string title, demo, recipe_sha256{};
  bool fails = false;
  std::string verdict, verdict_remark{};
  std::vector<About> about;
  std::vector<Section> sections;
};

// The whole sheet. It points into `sheet`.
Sheet whole(const Worksheet& sheet);
// What to do, in order, with its cautions once.
Sheet in_short(const Worksheet& sheet);

// What heads both of them; no sections yet.
Sheet beginning(const Worksheet& sheet);

// Of `steps` the one at `at`, counted from 0. Cautions of a reagent that an earlier step has told stand there.
Section step_of(std::span<const StepSheet> steps, std::size_t at);

// Cautions and handling of a substance.
Block care_of(const Substance& substance);
// Cautions of one that is handled without being added.
Block handled_with_care(const Substance& substance);

}  // namespace vatwright::blocks
