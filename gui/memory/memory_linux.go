//go:build linux && cgo

package memory

// #include <malloc.h>
//
// static void give_back(void) {
// #ifdef __GLIBC__
// 	mallopt(M_MMAP_THRESHOLD, 128 * 1024);
// 	mallopt(M_ARENA_MAX, 2);
// #endif
// }
import "C"

// The threshold is the one the C library starts with; to set it keeps it from
// rising. Two arenas serve the window's thread and the renderer's.
func init() { C.give_back() }
