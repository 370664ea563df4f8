#pragma once

#include <string_view>

#include "sealing/bytes.h"

namespace voltfall {

// The program's own key lies in the program: it runs a sealed job with nobody near. It keeps an answer from whoever
// opens files, and a record from whoever edits one; not from somebody who takes the program itself apart.

/// What a sealed job is also sealed to, so that it can be worked.
std::string_view program_box();
std::optional<Bytes> opened_by_program(std::string_view sealed);

/// 16 bytes that only this program puts under `message`: keyed BLAKE2b.
Bytes program_mark(std::string_view message);

}  // namespace voltfall
