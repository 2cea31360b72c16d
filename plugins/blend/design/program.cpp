#include "plugins/blend/design/program.hpp"

#include "units/error.hpp"

#include <fmt/format.h>
#include <glpk.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <memory>
#include <stdexcept>

namespace vatwright::blend::program {
namespace {

constexpr int most_simplex_steps = 100000;
constexpr double least_gap = 1e-9;  // of the objective, relative: no answer this near is looked for

[[noreturn]] void refuse(const std::string& what) { throw std::logic_error("a program that is not in order: " + what); }

void check_span(double low, double high, const std::string& name) {
  if (std::isnan(low) || std::isnan(high) || low > high || low == infinity || high == -infinity)
    refuse("the bounds of " + name);
}

// GLPK ends the whole process on bad arguments: none may reach it.
void check(const Model& model) {
  if (model.columns.empty()) refuse("it has no columns");
  for (const auto& column : model.columns) {
    check_span(column.low, column.high, column.name);
    if (!std::isfinite(column.cost)) refuse("the cost of " + column.name);
  }
  std::vector<std::size_t> seen(model.columns.size(), model.rows.size());
  for (std::size_t i = 0; i < model.rows.size(); ++i) {
    const auto& row = model.rows[i];
    check_span(row.low, row.high, row.name);
    for (const auto& term : row.terms) {
      if (term.column >= model.columns.size() || !std::isfinite(term.coefficient)) refuse("a term of " + row.name);
      if (seen[term.column] == i) refuse("a column twice in " + row.name);
      seen[term.column] = i;
    }
  }
}

// GLPK's state on this thread, given back at the end unless somebody else had begun with it.
class Session {
 public:
  Session() : own_(glp_init_env() == 0) { glp_term_out(GLP_OFF); }
  Session(const Session&) = delete;
  Session& operator=(const Session&) = delete;
  ~Session() {
    if (own_) glp_free_env();
  }

 private:
  bool own_;
};

struct Delete {
  void operator()(glp_prob* p) const { glp_delete_prob(p); }
};
using Problem = std::unique_ptr<glp_prob, Delete>;

int kind_of(double low, double high) {
  if (low == high) return GLP_FX;
  if (low == -infinity) return high == infinity ? GLP_FR : GLP_UP;
  return high == infinity ? GLP_LO : GLP_DB;
}

Problem loaded(const Model& model) {
  Problem p(glp_create_prob());
  glp_set_obj_dir(p.get(), GLP_MIN);
  glp_add_cols(p.get(), static_cast<int>(model.columns.size()));
  int place = 0;
  for (const auto& column : model.columns) {
    glp_set_col_bnds(p.get(), ++place, kind_of(column.low, column.high), column.low, column.high);
    glp_set_obj_coef(p.get(), place, column.cost);
    if (column.yes_or_no) glp_set_col_kind(p.get(), place, GLP_IV);
  }
  if (!model.rows.empty()) glp_add_rows(p.get(), static_cast<int>(model.rows.size()));
  place = 0;
  std::vector<int> columns;
  std::vector<double> coefficients;
  for (const auto& row : model.rows) {
    glp_set_row_bnds(p.get(), ++place, kind_of(row.low, row.high), row.low, row.high);
    columns.assign(1, 0);  // GLPK counts from one
    coefficients.assign(1, 0);
    for (const auto& term : row.terms) {
      columns.push_back(static_cast<int>(term.column) + 1);
      coefficients.push_back(term.coefficient);
    }
    glp_set_mat_row(p.get(), place, static_cast<int>(row.terms.size()), columns.data(), coefficients.data());
  }
  return p;
}

// True when there is an answer. Tried from the plain start, and from a better one should that fail.
bool by_simplex(glp_prob* p) {
  glp_smcp how;
  glp_init_smcp(&how);
  how.msg_lev = GLP_MSG_OFF;
  how.it_lim = most_simplex_steps;
  how.meth = GLP_DUALP;
  for (int attempt = 0; attempt < 2; ++attempt) {
    if (attempt == 1) glp_adv_basis(p, 0);
    if (glp_simplex(p, &how) != 0) continue;
    switch (glp_get_status(p)) {
      case GLP_OPT:
        return true;
      case GLP_NOFEAS:
        return false;
      case GLP_UNBND:
        refuse("nothing holds its objective");
      default:
        break;
    }
  }
  throw InputError("the search for shares was given up", "fewer lots, or wider bounds, make it easier");
}

// The search among yes-or-no columns as it goes on.
struct Branching {
  const Effort& effort;
  int nodes = 0;
  bool ended = false;
  double proven = -infinity;
};

void at_node(glp_tree* tree, void* said) {
  if (glp_ios_reason(tree) != GLP_ISELECT) return;
  auto& search = *static_cast<Branching*>(said);
  ++search.nodes;
  const bool has_one = glp_mip_status(glp_ios_get_prob(tree)) == GLP_FEAS;
  if (search.nodes <= (has_one ? search.effort.enough : search.effort.most)) return;
  search.ended = true;
  search.proven = glp_ios_node_bound(tree, glp_ios_best_node(tree));
  glp_ios_terminate(tree);
}

// From the answer of the program without its yes-or-no. True when there is an answer.
bool by_branches(glp_prob* p, Branching& search) {
  glp_iocp how;
  glp_init_iocp(&how);
  how.msg_lev = GLP_MSG_OFF;
  how.mip_gap = least_gap;
  how.gmi_cuts = how.mir_cuts = how.cov_cuts = how.clq_cuts = GLP_ON;
  how.br_tech = GLP_BR_DTH;
  how.cb_func = at_node;
  how.cb_info = &search;
  const int ended = glp_intopt(p, &how);
  const int found = glp_mip_status(p);
  if (ended == 0 && found == GLP_NOFEAS) return false;
  if (found == GLP_OPT || found == GLP_FEAS) return true;
  throw InputError(
      fmt::format("the search among the lots to choose from was given up after {} tries: none of them keeps "
                  "to all that is asked for, and none is proven to be impossible",
                  search.nodes),
      "give fewer lots, or fewer of them 'whole or not at all', or wider bounds; without a smallest share "
      "and a count of lots it is easier");
}

bool has_choices(const Model& model) {
  return std::any_of(model.columns.begin(), model.columns.end(), [](const Column& c) { return c.yes_or_no; });
}

Solution read(glp_prob* p, const Model& model) {
  Solution out{glp_get_obj_val(p), {}, {}, glp_get_obj_val(p)};
  for (std::size_t i = 0; i < model.columns.size(); ++i)
    out.values.push_back(glp_get_col_prim(p, static_cast<int>(i) + 1));
  for (std::size_t i = 0; i < model.rows.size(); ++i)
    out.prices.push_back(glp_get_row_dual(p, static_cast<int>(i) + 1));
  return out;
}

}  // namespace

std::size_t Model::add(Column column) {
  columns.push_back(std::move(column));
  return columns.size() - 1;
}
void Model::add(Row row) { rows.push_back(std::move(row)); }

std::optional<Solution> solve(const Model& model, const Effort& effort) {
  check(model);
  const Session session;
  const Problem p = loaded(model);
  if (!by_simplex(p.get())) return std::nullopt;
  if (!has_choices(model)) return read(p.get(), model);
  Branching search{.effort = effort};
  if (!by_branches(p.get(), search)) return std::nullopt;
  Solution found{.objective = 0, .values = {}, .prices = {}, .proven = 0};
  for (std::size_t i = 0; i < model.columns.size(); ++i)
    found.values.push_back(glp_mip_col_val(p.get(), static_cast<int>(i) + 1));
  // Prices are those of the linear program that is left when every choice stands.
  const Model chosen = chosen_as(found, model);
  const Problem linear = loaded(chosen);
  if (!by_simplex(linear.get())) return std::nullopt;
  found = read(linear.get(), chosen);
  if (search.ended) found.proven = std::min(search.proven, found.objective);
  found.ended = search.ended;
  found.nodes = search.nodes;
  return found;
}

Model chosen_as(const Solution& solution, Model model) {
  for (std::size_t i = 0; i < model.columns.size(); ++i) {
    auto& column = model.columns[i];
    if (!column.yes_or_no) continue;
    column.low = column.high = std::round(solution.values[i]);
    column.yes_or_no = false;
  }
  return model;
}

std::string written(const Model& model) {
  std::string text;
  const auto into = std::back_inserter(text);
  const auto sum = [&](const std::vector<Term>& terms) {
    if (terms.empty()) fmt::format_to(into, " 0 x1");
    for (const auto& term : terms) fmt::format_to(into, "\n {:+.17g} x{}", term.coefficient, term.column + 1);
  };
  std::vector<Term> cost;
  for (std::size_t i = 0; i < model.columns.size(); ++i) cost.push_back({i, model.columns[i].cost});
  fmt::format_to(into, "Minimize\n cost:");
  sum(cost);
  fmt::format_to(into, "\nSubject To\n");
  for (std::size_t i = 0; i < model.rows.size(); ++i) {
    const auto& row = model.rows[i];
    const auto one = [&](std::string_view side, std::string_view relation, double number) {
      fmt::format_to(into, " r{}{}:", i + 1, side);
      sum(row.terms);
      fmt::format_to(into, " {} {:.17g}\n", relation, number);
    };
    if (row.low == row.high) {
      one("", "=", row.low);
      continue;
    }
    if (row.low != -infinity) one("low", ">=", row.low);
    if (row.high != infinity) one("high", "<=", row.high);
  }
  fmt::format_to(into, "Bounds\n");
  for (std::size_t i = 0; i < model.columns.size(); ++i)
    fmt::format_to(into, " {:+.17g} <= x{} <= {:+.17g}\n", model.columns[i].low, i + 1, model.columns[i].high);
  if (has_choices(model)) {
    fmt::format_to(into, "Generals\n");
    for (std::size_t i = 0; i < model.columns.size(); ++i)
      if (model.columns[i].yes_or_no) fmt::format_to(into, " x{}\n", i + 1);
  }
  text += "End\n";
  return text;
}

}  // namespace vatwright::blend::program
