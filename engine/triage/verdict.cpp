#include "triage/verdict.hpp"

#include "triage/reasons.hpp"
#include "triage/tables.hpp"

namespace ashtriage::triage {

namespace {

// Some 5 MiB in all for rule packs of the usual size.
constexpr std::size_t recommendations_remembered = std::size_t{1} << 16U;
constexpr std::size_t others_remembered = std::size_t{1} << 14U;

reason::TableIndex table_of(const Judge& judge, std::string_view name) {
    return *judge.rules().model.find_table(name);  // a judge has all that it needs
}

}  // namespace

Verdicts::Verdicts(const Judge& judge)
    : judge_(&judge),
      crown_(judge.rules()),
      recommendation_(table_of(judge, table::recommendation)),
      evidence_(table_of(judge, table::evidence)),
      hazard_(table_of(judge, table::hazard)),
      recommendations_(CellKey(judge.engine(), recommendation_, EyeError::minded),
                       recommendations_remembered),
      evidences_(CellKey(judge.engine(), evidence_, EyeError::ignored), others_remembered),
      flags_(CellKey(judge.engine(), hazard_, EyeError::ignored), others_remembered) {}

Verdict Verdicts::on(const reason::Observation& values) {
    const reason::Engine& engine = judge_->engine();
    Recommended found = recommendations_.answer(values, [&] { return recommended(values); });
    if (crown_.missing(values)) {
        // The measure that nobody recorded may be the worse one.
        const reason::Observation open = crown_.left_open(values);
        const Recommended& then = recommendations_.answer(open, [&] { return recommended(open); });
        if (then.possible != found.possible) {
            found.firm = false;
            found.within_error |= then.possible;
        }
    }
    return {
        .possible = found.possible,
        .firm = found.firm,
        .within_error = found.within_error,
        .deciding_rule = found.deciding_rule,
        .evidence =
            evidences_.answer(values, [&] { return engine.decide(evidence_, values).outcome(); }),
        .flags = flags_.answer(values, [&] { return engine.collect(hazard_, values).certain; })};
}

Verdicts::Recommended Verdicts::recommended(const reason::Observation& values) const {
    const reason::Engine& engine = judge_->engine();
    const reason::Firmness firmness = engine.firmness(recommendation_, values);
    Recommended found;
    found.possible = engine.decide(recommendation_, values).possible;
    found.within_error = firmness.within_error.possible;
    found.firm = firmness.firm;
    const auto deciding = deciding_rules(judge_->rules(), engine, values, recommendation_);
    if (!deciding.empty()) found.deciding_rule = deciding.front().rule;
    return found;
}

}  // namespace ashtriage::triage
