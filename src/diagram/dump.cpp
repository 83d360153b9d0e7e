/// A plan as sorted text, in thousandths of an inch: small enough to read, exact enough to compare.
#include <algorithm>

#include "base/text.h"
#include "diagram/plan.h"

namespace ohmfolio::diagram {

namespace {

std::string mils(Length length) { return decimal(length.in_inches() * 1000, 0); }

std::string written(Point p) { return mils(p.x) + "," + mils(p.y); }

} // namespace

std::string dump(const Plan& plan) {
    std::vector<std::string> lines;
    for (const Block& block : plan.blocks) {
        lines.push_back("block " + plan.of(block).id + " column " + std::to_string(block.column) +
                        " body " + written(block.body.low) + " " + written(block.body.high) +
                        " line " + mils(block.line));
    }
    for (const Wire& wire : plan.wires) {
        std::string line = "wire " + shown_by(plan, wire);
        for (const Point& p : wire.points) {
            line += " " + written(p);
        }
        lines.push_back(std::move(line));
    }
    std::sort(lines.begin(), lines.end());
    return join(lines, "\n") + "\n";
}

} // namespace ohmfolio::diagram
