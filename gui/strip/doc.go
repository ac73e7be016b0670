// Package strip is the strip with the decision above every place: today's figures
// beside those of the option proposed, and the next thing to do. Its height
// follows from the width and the size of the letters alone, never from its words.
package strip
