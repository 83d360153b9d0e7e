#include "drawn/roof_job.h"

#include <algorithm>

#include <fmt/format.h>

namespace ohmfolio::drawn {
namespace {

constexpr int inverters_on_branch = 12, branches_in_combiner = 12, combiners_in_panel = 6;

constexpr const char* head = R"(catalogue = ["catalogue.toml", "larger.toml"]
code = "NEC 2023"

[project]
name = "Quarry Hill works"
address = "510 Quarry Hill Road, Tolliver Bend, Vance County"
jurisdiction = "Vance County Building Department"
utility = "Tolliver Bend Light & Water"
scope = "Roof-mounted PV"
date = "2026-03-02"

[site]
coldest = "-9 C"
hottest = "37 C"
service = "120/240 V, 4000 A"
fault_current = "30 kA"

[modules]
module = "solvane-405"
microinverter = "large-m290"

[meter.UM-1]
model = "large-um400"

[panel.MSP]
model = "large-p1200"
main = "1200 A"
feeds = "UM-1"
run = { length = "12 ft", raceway = "RMC" }
loads = {}
electrodes = ["concrete-encased"]
)";

int parts(int all, int each) { return (all + each - 1) / each; }

} // namespace

std::string roof_job(int inverters) {
    const int branches = parts(inverters, inverters_on_branch);
    const int combiners = parts(branches, branches_in_combiner);
    const int panels = parts(combiners, combiners_in_panel);
    std::string text = head;
    for (int i = 0; i < panels; ++i) {
        text += fmt::format("\n[panel.SP-{}]\nmodel = \"large-p1200\"\nfeeds = \"MSP\"\nloads = "
                            "{{}}\nrun = {{ length = \"60 ft\", raceway = \"EMT\" }}\n",
                            i + 1);
    }
    for (int i = 0; i < combiners; ++i) {
        text += fmt::format("\n[combiner.CP-{}]\nmodel = \"large-c12\"\nfeeds = \"SP-{}\"\n"
                            "run = {{ length = \"24 ft\", raceway = \"EMT\" }}\n",
                            i + 1, i / combiners_in_panel + 1);
    }
    for (int i = 0; i < branches; ++i) {
        text +=
            fmt::format("\n[branch.PV-{}]\nmodules = {}\nroof = \"South roof\"\nfeeds = "
                        "\"CP-{}\"\nrun = {{ length = \"40 ft\" }}\n",
                        i + 1, std::min(inverters_on_branch, inverters - i * inverters_on_branch),
                        i / branches_in_combiner + 1);
    }
    return text;
}

} // namespace ohmfolio::drawn
