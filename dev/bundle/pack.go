package main

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"io"
	"strings"
)

// packAll puts what is to be packed in the place of what it was.
func packAll(files map[string][]byte) error {
	for _, name := range packed {
		data, ok := files[name]
		if !ok {
			continue
		}
		delete(files, name)
		var err error
		if files[name+".gz"], err = pack(data); err != nil {
			return fmt.Errorf("packing %s: %w", name, err)
		}
	}
	return nil
}

func pack(data []byte) ([]byte, error) {
	var b bytes.Buffer
	z, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	if _, err := z.Write(data); err != nil {
		return nil, err
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// alike says whether two files hold the same. Packed ones are compared by what is in
// them: another release of Go may pack otherwise.
func alike(name string, a, b []byte) bool {
	if bytes.Equal(a, b) {
		return true
	}
	if !strings.HasSuffix(name, ".gz") {
		return false
	}
	one, err := unpack(a)
	if err != nil {
		return false
	}
	other, err := unpack(b)
	return err == nil && bytes.Equal(one, other)
}

func unpack(data []byte) ([]byte, error) {
	z, err := gzip.NewReader(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	return io.ReadAll(z)
}
