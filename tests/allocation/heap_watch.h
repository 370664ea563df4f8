#pragma once

namespace voltfall {

/// Calls to the heap made by this process since `watch_heap(true)`: malloc, calloc, realloc, aligned_alloc and free,
/// and so operator new and delete, wherever they are called from, shared libraries among them.
void watch_heap(bool on);
long heap_calls();

}  // namespace voltfall
