// Package notices shows findings as a list, most severe first, and warnings as
// banners.
package notices
