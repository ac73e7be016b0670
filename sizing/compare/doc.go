// Package compare sets options side by side by measure, and holds how well each
// number is known: ranges over samples, and how far the samples agree on a
// difference.
package compare
