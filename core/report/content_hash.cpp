#include "core/report/content_hash.h"

#include <cstdint>

namespace waybench {

std::string contentHash(std::string_view bytes) {
    std::uint64_t hash = 0xcbf29ce484222325u;
    for (const char c : bytes) {
        hash ^= static_cast<unsigned char>(c);
        hash *= 0x100000001b3u;
    }
    std::string text(16, '0');
    for (int i = 15; i >= 0; --i, hash >>= 4)
        text[static_cast<std::size_t>(i)] = "0123456789abcdef"[hash & 15u];
    return text;
}

}  // namespace waybench
