// Elementary cells: the stretches or groups of levels of a fact that no condition of the model
// tells apart. Any value of a cell stands for all of it.
#pragma once

#include <vector>

#include "reason/model.hpp"
#include "reason/value.hpp"

namespace ashtriage::reason {

// The cells of each fact, in the order of its values; together they cover its range or levels. A
// fact that no condition tests has one cell.
std::vector<std::vector<Value>> elementary_cells(const Model& model);

// The parts of `value` that fall into different cells. An unknown value falls into every cell; a
// fact that does not apply falls into none and is returned as it is.
std::vector<Value> split(const Value& value, const std::vector<Value>& cells);

}  // namespace ashtriage::reason
