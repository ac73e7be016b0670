package fieldpath

import "reflect"

// Follow finds where the field at a path of one job is in a later one, in whose
// lists an element may have been added, removed or moved. The result is empty
// where the field no longer exists. A path that leads to no field stays as it is.
// Before and after are pointers to structs of one type.
func Follow(path string, before, after any) string {
	steps, err := Parse(path)
	if err != nil {
		return path
	}
	was, is := whole(before), whole(after)
	out := make(Path, len(steps))
	for i, s := range steps {
		out[i] = s
		if s.Name == "" {
			k := moved(was.v, is.v, s.Index)
			if k < 0 {
				return ""
			}
			out[i].Index = k
		}
		var e *Error
		if was, e = was.step(s); e != nil {
			return path
		}
		if is, e = is.step(out[i]); e != nil {
			return path
		}
	}
	return out.String()
}

// moved finds where the i-th element of a list is in a later list, -1 where it is
// gone.
func moved(was, is reflect.Value, i int) int {
	if was.Kind() != reflect.Slice || i >= was.Len() {
		return -1
	}
	same := func(k int) bool {
		return k < is.Len() && reflect.DeepEqual(was.Index(i).Interface(), is.Index(k).Interface())
	}
	if same(i) {
		return i
	}
	for k := range is.Len() {
		swapped := k < was.Len() && i < is.Len() && reflect.DeepEqual(was.Index(k).Interface(), is.Index(i).Interface())
		if same(k) && (swapped || was.Len() != is.Len()) {
			return k
		}
	}
	if was.Len() == is.Len() {
		return i // it was changed in its place
	}
	return -1
}
