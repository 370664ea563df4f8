#include "scenario/format.h"

#include "console/commands.h"
#include "console/files.h"

namespace voltfall {

int format_command(const std::string& out) {
  return write_page("Format", format_reference(), out);
}

}  // namespace voltfall
