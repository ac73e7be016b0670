package library

// Merged lists by name what was done with the items of a table or of files.
type Merged struct {
	Added, Replaced, Unchanged []string
	// Differ are items whose values in the library differ and were kept.
	Differ []string
}

// Merge puts items into a library. An item of the same name that holds something
// else is replaced where replace is set, and stays otherwise.
func Merge(dir string, items []Item, replace bool) (Merged, error) {
	var m Merged
	lib, err := Read(dir)
	if err != nil {
		return m, err
	}
	for _, item := range items {
		there := lib.Named(item.Kind(), item.Name())
		same := false
		for _, e := range there {
			same = same || Same(e.Item, item)
		}
		switch {
		case same:
			m.Unchanged = append(m.Unchanged, item.Name())
		case len(there) == 0:
			file, err := Add(dir, item)
			if err != nil {
				return m, err
			}
			lib.Entries = append(lib.Entries, Entry{Item: item, File: file})
			m.Added = append(m.Added, item.Name())
		case replace:
			if err := Replace(dir, there[0], item); err != nil {
				return m, err
			}
			m.Replaced = append(m.Replaced, item.Name())
		default:
			m.Differ = append(m.Differ, item.Name())
		}
	}
	return m, nil
}
