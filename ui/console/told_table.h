#pragma once

#include "diagnosis/signature_table.h"

namespace voltfall {

/// The program's tables; one that takes more than a second to work out says on standard error how far it is.
TableSource told_tables();

}  // namespace voltfall
