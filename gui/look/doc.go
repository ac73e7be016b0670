// Package look is the bench's own appearance: paper and graphite with a teal
// accent, in a light and a dark variant, tight enough that a whole house fits
// beside its picture on a small laptop. Every text keeps a contrast of at
// least 4.5 to 1 against what it stands on (WCAG 2.1, success criterion 1.4.3).
package look
