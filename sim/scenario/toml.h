#pragma once

// The one door to toml++. Its parser asserts on what it is about to report as an error anyway (a header line such as
// `[,` is enough), so a person's slip would end a debug build. Every file has to include it from here: the library is
// inline, and two versions of its assertions must not meet in one program.
#define TOML_ASSERT(expression) static_cast<void>(0)
#include <toml++/toml.h>
