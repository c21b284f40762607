package cli

import (
	"strconv"
	"strings"
)

// listed joins words as people do: "a, b and c".
func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// counted is "1 tool", "3 tools".
func counted(n int, one string) string {
	return numbered(n) + " " + plural(n, one)
}

// plural is the word for n of a thing.
func plural(n int, one string) string {
	if n == 1 {
		return one
	}
	return one + "s"
}

// numbered writes small numbers as words, as a sentence has them.
func numbered(n int) string {
	small := []string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"}
	if n >= 0 && n < len(small) {
		return small[n]
	}
	return strconv.Itoa(n)
}

// ended closes a sentence.
func ended(text string) string {
	if strings.HasSuffix(text, ".") || strings.HasSuffix(text, "?") {
		return sentence(text)
	}
	return sentence(text) + "."
}

// sentence begins with a capital letter.
func sentence(text string) string {
	if text == "" {
		return text
	}
	return strings.ToUpper(text[:1]) + text[1:]
}
