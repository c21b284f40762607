package check

import (
	"fmt"
	"strings"

	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/job"
)

// named is a thing in words, as it stands within a sentence: its own name, or
// what it is and where.
func (c *Case) named(id job.ID) string {
	if t := c.idx.Tool(id); t != nil && t.Name != "" {
		return cure.Within(t.Name)
	}
	if o := c.idx.Outlet(id); o != nil && o.Name != "" {
		return cure.Within(o.Name)
	}
	if r := c.idx.Run(id); r != nil {
		if r.Name != "" {
			return cure.Within(r.Name)
		}
		return c.lineWords(r)
	}
	if p := c.idx.Point(id); p != nil {
		if p.Name != "" {
			return cure.Within(p.Name)
		}
		if k, ok := c.shelf.Kind(p.Part.Kind); ok && !strings.HasPrefix(tail(id), k.Name("en")) {
			return "the " + k.Name("en") + " " + tail(id)
		}
	}
	if o := c.idx.OutletOfHose(id); o != nil {
		return "the hose at " + c.named(o.ID)
	}
	if o := c.idx.OutletOfPart(id); o != nil {
		for i := range o.Hang {
			if o.Hang[i].ID == id {
				return "the " + c.net.hung(&o.Hang[i]).Name("en") + " at " + c.named(o.ID)
			}
		}
	}
	return tail(id)
}

// lineWords is a run without a name, by its part in the system and its id.
func (c *Case) lineWords(r *job.Run) string {
	name := tail(r.ID)
	if strings.HasPrefix(name, r.Role) {
		return name // "main-3" says it already
	}
	return "the " + r.Role + " " + name
}

// tail is an id without the word that says its kind, for things without a name.
func tail(id job.ID) string {
	if _, rest, ok := strings.Cut(string(id), "."); ok {
		return rest
	}
	return string(id)
}

// names lists things in words, the first few where there are many.
func (c *Case) names(ids []job.ID) string {
	words := make([]string, 0, len(ids))
	for _, id := range ids {
		words = append(words, c.named(id))
	}
	return listed(words)
}

// most is how many names a sentence carries.
const most = 4

// listed joins words as people do: "a, b and c", "a, b, c, d and 5 more", and
// names what comes twice once. Names with a comma in them are parted by semicolons.
func listed(words []string) string {
	var once []string
	count := map[string]int{}
	comma := ", "
	for _, w := range words {
		if count[w]++; count[w] == 1 {
			once = append(once, w)
		}
		if strings.Contains(w, ",") {
			comma = "; "
		}
	}
	for i, w := range once {
		if n := count[w]; n > 1 {
			once[i] = fmt.Sprintf("%d × %s", n, strings.TrimPrefix(w, "the "))
		}
	}
	switch n := len(once); {
	case n == 0:
		return "nothing"
	case n == 1:
		return once[0]
	case n > most+1:
		return strings.Join(once[:most], comma) + fmt.Sprintf(" and %d more", n-most)
	default:
		return strings.Join(once[:n-1], comma) + " and " + once[n-1]
	}
}

// plural is "1 outlet", "3 outlets".
func plural(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %ss", n, one)
}

// sentence begins a text with a capital letter.
func sentence(format string, args ...any) string {
	s := fmt.Sprintf(format, args...)
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
