#pragma once
#include <string>
#include <string_view>

namespace waybench {

/// 64-bit FNV-1a of the bytes, 16 hexadecimal digits: tells two versions of a file apart; no protection against
/// forgery. Source: Fowler, Noll, Vo, "The FNV Non-Cryptographic Hash Algorithm", IETF draft-eastlake-fnv (constants
/// from memory, checked by its published test vectors).
std::string contentHash(std::string_view bytes);

}  // namespace waybench
