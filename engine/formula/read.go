package formula

import (
	"errors"
	"strings"

	"dropleg/engine/unit"
)

// Problem is one thing wrong with the arguments of a formula.
type Problem struct {
	Path    string `json:"path"`              // the key at fault
	Read    string `json:"read,omitempty"`    // what stood there
	Want    string `json:"want"`              // what is accepted
	Nearest string `json:"nearest,omitempty"` // nearest valid word, if one is near
}

// Read reads arguments of the form key=value by the kinds of f.In. Pressures
// count against the atmosphere of env. Every problem is reported at once, those
// of the arguments in their order, then inputs that are missing; with any
// problem the values are not fit for use. Defaults are not filled in: Run does.
func (f Formula) Read(args []string, env unit.Env) (Values, []Problem) {
	v := NewValues()
	var problems []Problem
	named, given := map[string]bool{}, map[string]bool{}
	for _, arg := range args {
		key, text, paired := strings.Cut(arg, "=")
		key, text = strings.TrimSpace(key), strings.TrimSpace(text)
		symbol, known := find(f.In, key)
		switch {
		case !paired:
			problems = append(problems, Problem{Path: key, Read: arg, Want: "key=value, such as " + f.sample(), Nearest: unit.Nearest(key, keys(f.In))})
		case !known:
			problems = append(problems, Problem{Path: key, Read: arg, Want: "one of " + strings.Join(keys(f.In), ", "), Nearest: unit.Nearest(key, keys(f.In))})
		case given[key]:
			problems = append(problems, Problem{Path: key, Read: arg, Want: key + " only once"})
		default:
			if p := symbol.read(v, text, env); p != nil {
				problems = append(problems, *p)
			}
		}
		named[key] = true
		given[key] = given[key] || paired
	}
	for _, s := range f.In {
		if s.required() && !named[s.Key] {
			problems = append(problems, Problem{Path: s.Key, Want: s.Key + ": " + s.Words + ", such as " + s.Key + "=" + s.example()})
		}
	}
	return v, problems
}

// read puts the symbol's value into v, or says what is wrong with the text.
func (s Symbol) read(v Values, text string, env unit.Env) *Problem {
	switch s.Kind {
	case unit.KindWord:
		word, ok := s.choose(text)
		if !ok {
			return &Problem{Path: s.Key, Read: text, Want: s.wants(), Nearest: unit.Nearest(text, s.Choices)}
		}
		v.Word[s.Key] = word
		return nil
	case unit.KindFlow:
		flow, err := unit.ParseFlow(text)
		if err != nil {
			return s.problem(text, err)
		}
		v.Flow[s.Key] = flow
		return nil
	}
	x, err := unit.Parse(text, s.Kind, env)
	if err != nil {
		return s.problem(text, err)
	}
	v.Num[s.Key] = x
	return nil
}

// choose finds the word among the choices, whatever its case.
func (s Symbol) choose(text string) (string, bool) {
	if len(s.Choices) == 0 {
		return text, text != ""
	}
	for _, c := range s.Choices {
		if strings.EqualFold(c, text) {
			return c, true
		}
	}
	return "", false
}

func (s Symbol) wants() string {
	if len(s.Choices) == 0 {
		return s.Words
	}
	return "one of " + strings.Join(s.Choices, ", ")
}

// problem carries the parser's words over.
func (s Symbol) problem(text string, err error) *Problem {
	var parse *unit.ParseError
	if errors.As(err, &parse) {
		return &Problem{Path: s.Key, Read: parse.Read, Want: parse.Want, Nearest: parse.Nearest}
	}
	return &Problem{Path: s.Key, Read: text, Want: err.Error()}
}

// required says whether the symbol must be given.
func (s Symbol) required() bool { return !s.Optional && s.Default == nil && s.Word == "" }

// example is a text that the symbol accepts.
func (s Symbol) example() string {
	if len(s.Choices) > 0 {
		return s.Choices[0]
	}
	return s.Kind.Example()
}

// sample is a first argument as it might be typed.
func (f Formula) sample() string {
	if len(f.In) == 0 {
		return "none: " + f.Name + " takes no inputs"
	}
	return f.In[0].Key + "=" + f.In[0].example()
}

func keys(symbols []Symbol) []string {
	all := make([]string, len(symbols))
	for i, s := range symbols {
		all[i] = s.Key
	}
	return all
}

func find(symbols []Symbol, key string) (Symbol, bool) {
	for _, s := range symbols {
		if s.Key == key {
			return s, true
		}
	}
	return Symbol{}, false
}
