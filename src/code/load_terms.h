/// Terms that load calculations are made of. Private to the room.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "code/demand_tables.h"
#include "code/desk.h"
#include "code/load_rules.h"

namespace ohmfolio {

/// One method of load calculation at work. Its lines are named for it, so that several methods may
/// be tried for one service: "optional_floor", "existing_floor".
struct MethodDesk {
    const Desk& desk;
    std::string name;

    Heading line(std::string_view what, std::string symbol, std::string title,
                 std::string_view rule_id) const;
    double number(std::string_view id) const { return desk.book.number(id); }
};

/// A constant load in a formula, shown as apparent power.
Term<Watts> volt_amperes(double value);
/// Nothing at all is 0 VA.
Term<Watts> sum_of(const std::vector<Term<Watts>>& loads);
/// Each band at its share: 3 kVA + 0.35 × (S − 3 kVA).
Term<Watts> banded(const Term<Watts>& total, const std::vector<DemandBand>& bands);

/// The lines that several methods share.
Term<Watts> floor_load(const MethodDesk&, SquareFeet floor);
Term<Watts> circuit_load(const MethodDesk&, int small_appliance, int laundry);

/// Ends a method: amperes, the least rating, and whether the service carries it.
LoadResult conclude(const MethodDesk&, const Term<Watts>& total, const ServiceInput&);

} // namespace ohmfolio
