// Package parse reads what a person types into a field, and writes a value so
// that it reads back as the same. It imports no toolkit.
package parse
