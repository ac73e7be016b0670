// Package compare sets options side by side by measure, and tells how well each
// number is known: ranges over samples, and how many samples agree on a
// difference.
package compare
