// A node of a recipe beside the input that it is for: what all kinds of values are read with.
#pragma once

#include "host/plugin/inputs.hpp"
#include "host/recipe/quantity.hpp"
#include "host/yaml/document.hpp"
#include "units/basis.hpp"
#include "units/parse.hpp"

#include <string>
#include <string_view>

namespace vatwright {

// Whatever it refuses is a BadInput that names the input and the place.
class NodeReader {
 public:
  NodeReader(const Document& doc, const Input& input, const Basis* acid_basis)
      : doc_(doc), input_(input), acid_basis_(acid_basis), prefix_(std::string(input.name) + ": ") {}

  const Document& doc() const { return doc_; }
  const Input& input() const { return input_; }
  const Basis* acid_basis() const { return acid_basis_; }

  [[noreturn]] void fail(Mark mark, const std::string& what, const std::string& hint) const {
    doc_.fail(mark, prefix_ + what, hint);
  }
  [[noreturn]] void fail(const Node& node, const InputError& error) const { doc_.fail(node, error, prefix_); }

  // An error is given the place of the node.
  template <class Look>
  void at(Mark mark, Look look) const {
    try {
      look();
    } catch (const InputError& error) {
      fail(mark, error.what(), error.hint());
    }
  }

  const std::string& text_of(const Node& node) const;
  Measured measured(const Node& node, const Expected& expected) const;
  // The same of a figure that is no reading: its uncertainty would go no further, and is refused.
  double exact(const Node& node, const Expected& expected) const;
  void in_range(const Node& node, double coherent) const;
  // What a figure of the input itself must be.
  Expected expected() const { return expected_of(input_, acid_basis_); }
  // The input of `each` that an entry names.
  const Input& key_of(const Entry& entry) const;

 private:
  const Document& doc_;
  const Input& input_;
  const Basis* acid_basis_;
  std::string prefix_;
};

// Throws InputError where a figure that is no reading has an uncertainty; `text` is quoted.
void refuse_uncertainty(const Measured& measured, std::string_view text);

// One for each kind that wants a page of its own.
Value read_series(const NodeReader& n, const Node& node);
Value read_bounds(const NodeReader& n, const Node& node);
Value read_lots(const NodeReader& n, const Node& node);
Value read_rows(const NodeReader& n, const Node& node);

}  // namespace vatwright
