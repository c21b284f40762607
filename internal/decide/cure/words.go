package cure

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"dropleg/internal/shop/job"
)

// sized is a size with its unit: pipe sizes in inches are written with a
// fraction or one digit, metric ones with their outside diameter.
func sized(size string) string {
	switch {
	case strings.Contains(size, "/") || len(size) == 1:
		return size + " in"
	case strings.Trim(size, "0123456789.") == "":
		return size + " mm"
	}
	return size
}

// at says at which outlet a thing is.
func at(idx *job.Index, outlet job.ID) string {
	if o := idx.Outlet(outlet); o != nil && o.Name != "" {
		return " at " + Within(o.Name)
	}
	return ""
}

// Within is a name as it stands within a sentence: "Far bench" is "the far
// bench" there. A name with a capital further on, or with an owner, is a proper
// one and stays; so does the article that people gave themselves. What bears a
// number or a remark behind a comma goes without one.
func Within(name string) string {
	first, size := utf8.DecodeRuneInString(name)
	rest := name[size:]
	next, _ := utf8.DecodeRuneInString(rest)
	if strings.ContainsFunc(rest, unicode.IsUpper) || strings.ContainsRune(rest, '\'') || !unicode.IsLetter(first) || !unicode.IsLetter(next) && next != '-' {
		return name
	}
	name = string(unicode.ToLower(first)) + rest
	word, _, _ := strings.Cut(name, " ")
	last, _ := utf8.DecodeLastRuneInString(name)
	if slices.Contains([]string{"the", "a", "an", "our", "my", "where"}, word) || unicode.IsDigit(last) || strings.Contains(name, ",") {
		return name
	}
	return "the " + name
}
