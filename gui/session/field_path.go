package session

import (
	"fmt"
	"reflect"
	"regexp"
	"strconv"
	"strings"

	"returnbench/sizing"
)

var pathPart = regexp.MustCompile(`\[(\d+)\]|[^.\[\]]+`)

// follow finds where the field of a path stands in a later Job; empty: nowhere.
func follow(path string, before, after *sizing.Job) string {
	was, is, out := reflect.ValueOf(before).Elem(), reflect.ValueOf(after).Elem(), ""
	for _, part := range pathPart.FindAllStringSubmatch(path, -1) {
		if part[1] == "" {
			was, is = member(was, part[0]), member(is, part[0])
			out += "." + part[0]
		} else {
			i, _ := strconv.Atoi(part[1])
			k := place(was, is, i)
			if k < 0 {
				return ""
			}
			was, is = was.Index(i), is.Index(k)
			out += fmt.Sprintf("[%d]", k)
		}
		if !was.IsValid() || !is.IsValid() {
			return path // no field of the Job, and so none that moves
		}
	}
	return strings.TrimPrefix(out, ".")
}

func member(v reflect.Value, name string) reflect.Value {
	if v.Kind() != reflect.Struct {
		return reflect.Value{}
	}
	for i := range v.NumField() {
		if tag, _, _ := strings.Cut(v.Type().Field(i).Tag.Get("json"), ","); tag == name {
			return v.Field(i)
		}
	}
	return reflect.Value{}
}

// place finds where the i-th thing of a list stands in a later list, -1 where it
// is gone.
func place(was, is reflect.Value, i int) int {
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
		return i // it has changed where it stands
	}
	return -1
}
