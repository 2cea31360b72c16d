#include "host/book/stored_lots.hpp"

#include "host/book/learn.hpp"
#include "host/book/lot_record.hpp"
#include "host/book/went_in.hpp"
#include "host/recipe/recipe.hpp"
#include "host/sheet/fact_json.hpp"

namespace vatwright::book {
namespace {

// Of fewer nothing is learned (common practice, no source).
constexpr std::size_t fewest_cases = 5;

// Bad news of the book where a recipe asks for it, so that the recipe's line can be shown beside it.
template <class Ask>
auto asked_by_recipe(const std::filesystem::path& file, Ask ask) try {
  return ask(Book(file, Book::To::read));
} catch (const BadInput& error) {
  const std::string what = error.what();
  const auto end = what.find("\n  ");
  throw InputError(what.substr(0, end),
                   end == std::string::npos ? "look with 'vatwright book lots'" : what.substr(end + 3));
} catch (const sql::Trouble& trouble) {
  throw InputError(file.string() + ": " + trouble.what(), "look with 'vatwright book check'");
}

}  // namespace

StoredLot BookLots::find(const std::string& name) const {
  return asked_by_recipe(file_, [&](const Book& book) {
    const auto lot = book.known_lot(name, at_.seconds);
    const auto last = book.entry(book.last());
    Json record{{"at", at_.written}, {"entry", last.number}, {"hash", last.hash}, {"facts", lot.facts}};
    if (const auto substances = went_in(book, lot, at_.seconds); !substances.empty()) record["went in"] = substances;
    return of_record(name, record);
  });
}

Lessons BookLots::lessons() const {
  return asked_by_recipe(file_, [&](const Book& book) {
    const auto last = book.find(book.last()).value_or(Entry{});
    Json forecasts = Json::array();
    for (const auto& lesson : book::lessons(book, at_.seconds))
      if (lesson.cases.size() >= fewest_cases)
        forecasts.push_back({{"calculation", lesson.calculation},
                             {"fact", lesson.fact},
                             {"unit", lesson.unit},
                             {"cases", lesson.cases.size()},
                             {"bias", trimmed(lesson.bias())},
                             {"off", trimmed(lesson.off())}});
    return of_lessons({{"at", at_.written}, {"entry", last.number}, {"hash", last.hash}, {"forecasts", forecasts}});
  });
}

}  // namespace vatwright::book
