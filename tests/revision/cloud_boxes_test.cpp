// Where the arcs of clouds run. That they keep clear of lettering and close around what changed is
// common practice, no source; the distances are this program's own.
#include "revision/cloud_boxes.h"

#include "catch.h"

using namespace ohmfolio;

namespace {

const Length step = points(0.75), inner = points(0.5);

Box box(double left, double top, double right, double bottom) {
    return {{points(left), points(top)}, {points(right), points(bottom)}};
}

/// The one cloud around `changed` with `lettering` about it.
Box cloud_around(const Box& changed, std::vector<Box> lettering) {
    lettering.push_back(changed);
    const auto boxes = revision::cloud_boxes(
        {changed}, {lettering, box(0, 0, 400, 400), points(3), {points(12), points(12)}});
    REQUIRE(boxes.size() == 1);
    return boxes.front();
}

} // namespace

TEST_CASE("Each side of a cloud moves only as far as what is in its own way") {
    const Box changed = box(100, 100, 150, 110);
    const Box alone = cloud_around(changed, {});
    const Box below = box(110, 113, 140, 116), right = box(152, 102, 154, 108);
    const Box cloud = cloud_around(changed, {below, right});

    CHECK(cloud.low == alone.low);
    CHECK(cloud.high.x >= right.high.x + inner);
    CHECK(cloud.high.x < right.high.x + inner + step);
    CHECK(cloud.high.y >= below.high.y + inner);
    CHECK(cloud.high.y < below.high.y + inner + step);
}
