// Package atomicfile writes a file whole or not at all, on every platform. The
// new text is complete and synced beside the old one before it takes its place,
// and the folder is synced after. Permissions, owner and links of a file that is
// replaced stay as they were.
package atomicfile
