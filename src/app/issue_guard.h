/// A set that was issued stays what it was.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/issued_pdf.h"
#include "drawing/sheet.h"
#include "model/system.h"

namespace ohmfolio {

/// Of what is drawn; what tells of the issue itself is left out.
struct PacketDigests {
    std::string content;             ///< of all sheets together
    std::vector<std::string> sheets; ///< of each
};
PacketDigests digests_of(const Packet& packet);

/// What stands where a set is to go. A set is issued when it is final and its revision block has a
/// row.
enum class Standing {
    nothing_issued,
    the_same,       ///< the issued set with the same content
    earlier_issue,  ///< an issued set to which a revision row was added since
    another_content ///< an issued set that must not be drawn over
};
Standing standing(const std::optional<IssuedPdf>& there, const std::string& content,
                  const System& system);

} // namespace ohmfolio
