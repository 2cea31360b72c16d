// Trees of YAML held against each other.
#pragma once

#include "host/yaml/document.hpp"

#include <gtest/gtest.h>

#include <cstddef>
#include <string>

namespace vatwright::test {

// Two trees are one when their texts, kinds, order and places agree.
inline void expect_same(const Node& a, const Node& b, const std::string& path) {
  EXPECT_EQ(a.kind, b.kind) << path;
  EXPECT_EQ(a.text, b.text) << path;
  EXPECT_EQ(a.quoted, b.quoted) << path;
  EXPECT_EQ(a.mark.line, b.mark.line) << path;
  EXPECT_EQ(a.mark.byte, b.mark.byte) << path;
  ASSERT_EQ(a.items.size(), b.items.size()) << path;
  for (std::size_t i = 0; i < a.items.size(); ++i)
    expect_same(a.items[i], b.items[i], path + "[" + std::to_string(i) + "]");
  ASSERT_EQ(a.entries.size(), b.entries.size()) << path;
  for (std::size_t i = 0; i < a.entries.size(); ++i) {
    EXPECT_EQ(a.entries[i].key, b.entries[i].key) << path;
    expect_same(a.entries[i].value, b.entries[i].value, path + "." + a.entries[i].key);
  }
}

}  // namespace vatwright::test
