#include "host/yaml/document.hpp"

#include "host/yaml/plain_words.hpp"
#include "host/yaml/tree.hpp"

#include <fmt/format.h>
#include <yaml-cpp/exceptions.h>
#include <boost/locale/utf.hpp>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fstream>

namespace vatwright {
namespace {

std::string_view line_of(std::string_view text, int line) {
  std::size_t at = 0;
  for (int i = 1; i < line; ++i) {
    at = text.find('\n', at);
    if (at == std::string_view::npos) return {};
    ++at;
  }
  auto found = text.substr(at, text.substr(at).find('\n'));
  if (found.ends_with('\r')) found.remove_suffix(1);
  return found;
}

// Characters, not bytes: a column is what a person counts in an editor.
int characters(std::string_view s) {
  return static_cast<int>(std::count_if(s.begin(), s.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}

}  // namespace

std::size_t not_utf8(std::string_view text) {
  namespace utf = boost::locale::utf;
  for (auto at = text.begin(); at != text.end();) {
    const auto start = at;
    const auto point = utf::utf_traits<char>::decode(at, text.end());
    if (point == utf::illegal || point == utf::incomplete) return static_cast<std::size_t>(start - text.begin());
  }
  return std::string_view::npos;
}

const Node* Node::find(std::string_view key) const {
  for (const auto& entry : entries)
    if (entry.key == key) return &entry.value;
  return nullptr;
}

std::string read_file(const std::filesystem::path& file, std::size_t most) {
  const auto of_file = [&](const std::string& what, const std::string& hint) {
    throw BadInput(Problem{{.file = file.string()}, what, hint});
  };
  std::error_code ec;
  const auto status = std::filesystem::status(file, ec);
  if (!std::filesystem::exists(status))
    of_file("no such file", "look at the spelling of the name, and in which folder you are");
  if (std::filesystem::is_directory(status)) of_file("is a folder, expected a file", "name a file in it");
  std::ifstream in(file, std::ios::binary);
  if (!in) of_file(std::string("cannot be read: ") + std::strerror(errno), "look who may read it");
  // In pieces: a pipe or a file that grows has no size to trust, and `most` bytes at once cost more time than all the
  // rest of a run. The first piece is what the file says that it is, with one byte that finds its end: each page of
  // memory that nothing needs costs as much as reading it.
  std::size_t piece = 64 << 10;
  if (std::filesystem::is_regular_file(status))
    piece = std::min<std::size_t>(std::filesystem::file_size(file, ec), most) + 1;
  std::string text;
  while (in && text.size() <= most) {
    const std::size_t before = text.size();
    text.resize(before + piece);
    in.read(text.data() + before, static_cast<std::streamsize>(piece));
    text.resize(before + static_cast<std::size_t>(in.gcount()));
  }
  if (in.bad()) of_file("cannot be read", "copy it to another place and try again");
  if (text.size() > most)
    of_file(fmt::format("larger than {} KiB, which no recipe needs", most / 1024), "look whether it is the right file");
  return text;
}

Document Document::open(const std::filesystem::path& file, const ReadLimits& limits) {
  return read(file.string(), read_file(file, limits.bytes), limits);
}

Document Document::read(std::string name, std::string text, const ReadLimits& limits, int first_line) {
  Document doc(std::move(name), std::move(text), first_line);
  if (const auto zero = doc.text_.find('\0'); zero != std::string::npos)
    throw BadInput(Problem{doc.place_of(zero), "not a text file (it holds a zero byte)",
                           "write it in a text editor, and save it as UTF-8"});
  if (const auto at = not_utf8(doc.text_); at != std::string::npos) {
    const auto start = doc.text_.rfind('\n', at) + 1;  // 0 in the first line
    throw BadInput(Problem{doc.place_of(at), fmt::format("byte {} of this line is not UTF-8", at - start + 1),
                           "save the file as UTF-8"});
  }
  if (doc.text_.find_first_not_of(" \t\r\n") == std::string::npos)
    throw BadInput(Problem{doc.place_of(0), "the file is empty, expected a recipe or a table in YAML",
                           "look whether it is the right file, and whether it was saved"});
  try {
    doc.root_ = read_tree(doc.text_, limits, first_line);
  } catch (const TreeError& error) {
    doc.fail(error.mark, error.what(), error.hint);
  } catch (const YAML::ParserException& error) {
    const TreeError plain = in_plain_words(error, line_of(doc.text_, error.mark.line + 1), first_line);
    doc.fail(plain.mark, plain.what(), plain.hint);
  }
  return doc;
}

Document Document::of(std::string name, std::string text, Node root, int first_line) {
  Document doc(std::move(name), std::move(text), first_line);
  doc.root_ = std::move(root);
  return doc;
}

Place Document::place_of(std::size_t byte) const {
  const auto before = std::string_view(text_).substr(0, byte);
  const auto start = before.rfind('\n') + 1;  // 0 in the first line
  const auto lines = static_cast<int>(std::count(before.begin(), before.end(), '\n'));
  return {.file = name_, .line = first_line_ + lines, .column = characters(before.substr(start)) + 1};
}

Problem Document::problem(Mark mark, const std::string& what, const std::string& hint) const {
  const std::string_view line = line_of(text_, mark.line - first_line_ + 1);
  const auto before = static_cast<std::size_t>(std::max(0, mark.byte));
  const int column = characters(line.substr(0, std::min(before, line.size()))) + 1;
  return {{.file = name_, .line = mark.line, .column = column, .excerpt = std::string(line)}, what, hint};
}

void Document::fail(Mark mark, const std::string& what, const std::string& hint) const {
  throw BadInput(problem(mark, what, hint));
}

void Document::fail(const Node& node, const InputError& error, std::string_view prefix) const {
  Mark mark = node.mark;
  mark.byte += static_cast<int>(error.offset()) + (node.quoted ? 1 : 0);
  fail(mark, std::string(prefix) + error.what(), error.hint());
}

}  // namespace vatwright
