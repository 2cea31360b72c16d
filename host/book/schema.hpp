// The tables of a book: the entries, and what is made of them to be found quickly.
#pragma once

#include <array>

namespace vatwright::book {

// "vatw": so that another program's file is not taken for a book.
inline constexpr int application = 0x76617477;

// A book of version n has had the first n of them. One that has gone out is never changed: a further one comes after.
inline constexpr std::array migrations{
    R"sql(
CREATE TABLE entry(
  number INTEGER PRIMARY KEY CHECK(number > 0),
  kind TEXT NOT NULL, at TEXT NOT NULL, entered TEXT NOT NULL, who TEXT NOT NULL,
  payload TEXT NOT NULL, previous TEXT NOT NULL, hash TEXT NOT NULL) STRICT;
CREATE TRIGGER entries_stay BEFORE UPDATE ON entry BEGIN SELECT RAISE(ABORT, 'entries are never changed'); END;
CREATE TRIGGER entries_remain BEFORE DELETE ON entry BEGIN SELECT RAISE(ABORT, 'entries are never deleted'); END;

CREATE TABLE happened(
  entry INTEGER PRIMARY KEY REFERENCES entry(number),
  moment INTEGER NOT NULL,
  corrected_by INTEGER REFERENCES entry(number)) STRICT;
CREATE INDEX happened_in_order ON happened(moment, entry);

CREATE TABLE state(
  id INTEGER PRIMARY KEY, lot TEXT NOT NULL, moment INTEGER NOT NULL, entry INTEGER NOT NULL REFERENCES entry(number),
  volume REAL, facts TEXT NOT NULL) STRICT;
CREATE UNIQUE INDEX state_of_lot ON state(lot, moment, entry);
CREATE INDEX state_in_order ON state(moment);
CREATE TABLE lot(name TEXT PRIMARY KEY, state INTEGER NOT NULL REFERENCES state(id)) STRICT, WITHOUT ROWID;

CREATE TABLE touched(
  lot TEXT NOT NULL, moment INTEGER NOT NULL, entry INTEGER NOT NULL REFERENCES entry(number),
  PRIMARY KEY(lot, moment, entry)) STRICT, WITHOUT ROWID;
CREATE INDEX touched_in_order ON touched(moment);

CREATE TABLE work(
  sheet INTEGER NOT NULL REFERENCES entry(number), step INTEGER NOT NULL, part INTEGER NOT NULL,
  moment INTEGER NOT NULL, lot TEXT NOT NULL, what TEXT NOT NULL,
  done_by INTEGER REFERENCES entry(number), PRIMARY KEY(sheet, step, part)) STRICT, WITHOUT ROWID;
CREATE INDEX work_open ON work(lot) WHERE done_by IS NULL;
CREATE INDEX work_in_order ON work(moment);
CREATE INDEX work_done ON work(done_by);

CREATE TABLE weighed(
  entry INTEGER NOT NULL REFERENCES entry(number), line INTEGER NOT NULL, moment INTEGER NOT NULL,
  lot TEXT NOT NULL, substance TEXT NOT NULL, strength TEXT NOT NULL, batch TEXT NOT NULL,
  amount REAL NOT NULL, unit TEXT NOT NULL, PRIMARY KEY(entry, line)) STRICT, WITHOUT ROWID;
CREATE INDEX weighed_in_order ON weighed(moment);

CREATE TABLE foretold(
  entry INTEGER NOT NULL REFERENCES entry(number), fact TEXT NOT NULL, moment INTEGER NOT NULL,
  lot TEXT NOT NULL, calculation TEXT NOT NULL, unit TEXT NOT NULL, forecast REAL NOT NULL, measured REAL NOT NULL,
  PRIMARY KEY(entry, fact)) STRICT, WITHOUT ROWID;
CREATE INDEX foretold_in_order ON foretold(moment);

CREATE TABLE signature(
  entry INTEGER PRIMARY KEY REFERENCES entry(number), moment INTEGER NOT NULL,
  sheet INTEGER NOT NULL, who TEXT NOT NULL, holds INTEGER NOT NULL) STRICT;
CREATE INDEX signature_of_sheet ON signature(sheet);
)sql"};

inline constexpr int newest_version = static_cast<int>(migrations.size());

}  // namespace vatwright::book
