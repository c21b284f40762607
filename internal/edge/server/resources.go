package server

//go:generate go run dropleg/dev/gen

// Resources lists a value of every body that the API sends, for the generator
// of the page's types.
func Resources() []any {
	return []any{Job{}, Plan{}, Outlets{}, Way{}, Thing{}, Questions{}, Findings{}, Parts{}, Event{}, Fault{}}
}
