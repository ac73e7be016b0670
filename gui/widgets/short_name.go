package widgets

// shortLetters is the most letters of a name that stands among numbers.
const shortLetters = 28

// ShortName shortens a long name that a person gave, so that it pushes no number out of
// sight; the list of options and the form have it whole.
func ShortName(name string) string {
	letters := []rune(name)
	if len(letters) <= shortLetters {
		return name
	}
	return string(letters[:shortLetters-1]) + "…"
}
