#include "console/table_place.h"

#include "console/user_folders.h"

namespace voltfall {

TableStore& table_store() {
  static TableStore store(cache_folder() / "tables");
  return store;
}

}  // namespace voltfall
