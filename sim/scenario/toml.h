#pragma once

// The one door to toml++, with two of its habits changed, for a person's slip must never end the program:
// - its parser asserts on what it is about to report as an error anyway (a header line such as `[,` is enough);
// - it promises the compiler that a letter such as an accented e never stands outside quotes, and one does in some
// file. Every file has to include it from here: the library is inline, and two versions of it must not meet in one
// program.
#define TOML_ASSERT(expression) static_cast<void>(0)
#include <toml++/impl/preprocessor.h>
#undef TOML_UNREACHABLE
#define TOML_UNREACHABLE \
  return {}
#include <toml++/toml.h>
