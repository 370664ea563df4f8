#pragma once

#include "diagnosis/signature_table.h"

namespace voltfall {

/// The signature tables this user's machine has worked out, in `XDG_CACHE_HOME/voltfall/tables`, else under the home
/// folder, else under the working folder. One for the whole program; they may be thrown away at any time.
TableStore& table_store();

}  // namespace voltfall
