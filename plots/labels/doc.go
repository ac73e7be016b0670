// Package labels places the words of a chart among its lines: no two overlap, none
// leaves the area, and a line is crossed only where no other place is left. It
// knows boxes, line segments and a function that measures a text, and nothing of
// charts. Place is its main function; a chart lays out its other words with the
// same boxes.
//
// Words at the right ends of lines come first, because they must keep the order
// of their lines from top to bottom. Each has wordings from long to short. For
// every level of wording the words are stacked: each is best at the height of
// its line's end, and spread moves them apart with the least sum of squared
// moves (isotonic regression by pooling neighbors). Each box is then pushed
// right to where it crosses fewest lines. The longest wording that leaves out
// and crosses least is kept; where the stack is higher than the area the
// lightest words are left out.
//
// All other words follow, the heaviest first. Each tries its wordings from long to
// short on its anchors in their order, and takes the first that is clear of the words
// already placed and of every line; where none is clear of the lines, the one that
// crosses fewest. There is no going back: a word once placed stays, so that the
// result is the same each time and the work grows with words times anchors times
// segments.
package labels
