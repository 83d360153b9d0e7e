#include <array>
#include <cstdint>

#include <fmt/format.h>
#include <nettle/sha2.h>

#include "binder/binder.h"

namespace ohmfolio {

std::string digest(const std::string& bytes) {
    sha256_ctx context;
    sha256_init(&context);
    sha256_update(&context, bytes.size(), reinterpret_cast<const std::uint8_t*>(bytes.data()));
    std::array<std::uint8_t, SHA256_DIGEST_SIZE> sum{};
    sha256_digest(&context, sum.size(), sum.data());
    std::string figures;
    for (const std::uint8_t byte : sum)
        figures += fmt::format("{:02x}", byte);
    return figures;
}

} // namespace ohmfolio
