package main

import (
	"dropleg/dev/gen/output"
	"dropleg/internal/edge/server"
)

func main() { output.Main("gen", files) }

func files(string) ([]output.File, error) {
	text, err := typescript(append(server.Resources(), server.Things()...))
	if err != nil {
		return nil, err
	}
	return []output.File{{Path: "web/src/api/types.gen.ts", Text: text}}, nil
}
