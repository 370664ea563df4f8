#include "allocation/heap_watch.h"

#include <cerrno>
#include <cstddef>

// glibc's own names for the heap, behind the ones replaced here. The dynamic linker gives the program's names to every
// library, so that the standard library's operator new and Box2D's allocator come through here as well.
// NOLINTBEGIN(bugprone-reserved-identifier,cert-dcl37-c,cert-dcl51-cpp)
extern "C" {
void* __libc_malloc(std::size_t size);
void* __libc_calloc(std::size_t count, std::size_t size);
void* __libc_realloc(void* block, std::size_t size);
void* __libc_memalign(std::size_t alignment, std::size_t size);
void __libc_free(void* block);
}

namespace {

bool watching = false;
long calls = 0;

void note() {
  if (watching) ++calls;
}

}  // namespace

extern "C" {
void* malloc(std::size_t size) {
  note();
  return __libc_malloc(size);
}
void* calloc(std::size_t count, std::size_t size) {
  note();
  return __libc_calloc(count, size);
}
void* realloc(void* block, std::size_t size) {
  note();
  return __libc_realloc(block, size);
}
void* aligned_alloc(std::size_t alignment, std::size_t size) {
  note();
  return __libc_memalign(alignment, size);
}
int posix_memalign(void** block, std::size_t alignment, std::size_t size) {
  note();
  *block = __libc_memalign(alignment, size);
  return *block != nullptr ? 0 : ENOMEM;
}
void free(void* block) {
  if (block != nullptr) note();
  __libc_free(block);
}
}
// NOLINTEND(bugprone-reserved-identifier,cert-dcl37-c,cert-dcl51-cpp)

namespace voltfall {

void watch_heap(bool on) {
  if (on) calls = 0;
  watching = on;
}

long heap_calls() {
  return calls;
}

}  // namespace voltfall
