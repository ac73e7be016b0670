package jobfile

// What tests outside the package share; the library's types are read there, since
// the library itself needs this package.
var (
	Update  = update
	TypesOf = typesOf
)
