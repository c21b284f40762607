package fit

import (
	"fmt"
	"strconv"
	"strings"

	"dropleg/internal/shop/job"
)

// next counts an id on: "line.main-3" to "line.main-4", "point.tee" to "point.tee-2".
func next(id job.ID) job.ID {
	base, number, _ := cutNumber(string(id))
	return job.ID(fmt.Sprintf("%s-%d", base, number+1))
}

// cutNumber parts "main-3" into "main" and 3; without a number it is 1.
func cutNumber(s string) (base string, n int, ok bool) {
	i := strings.LastIndexByte(s, '-')
	if i > 0 {
		if k, err := strconv.Atoi(s[i+1:]); err == nil && k >= 0 && k < 1e9 && strconv.Itoa(k) == s[i+1:] {
			return s[:i], k, true
		}
	}
	return s, 1, false
}
