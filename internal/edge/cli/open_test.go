package cli

import (
	"bufio"
	"bytes"
	"context"
	"io"
	"net/http"
	"strings"
	"testing"

	"go.uber.org/goleak"
)

// TestOpen starts the server on an example, reads the page and stops it as Ctrl-C does.
func TestOpen(t *testing.T) {
	defer goleak.VerifyNone(t)
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	out, in := io.Pipe()
	var errs bytes.Buffer
	ended := make(chan int)
	go func() {
		ended <- Run(ctx, []string{"open", "--example", "boat-shop", "--no-browser"}, Streams{
			In: strings.NewReader(""), Out: in, Err: &errs, Env: func(string) string { return "" },
		})
		in.Close()
	}()
	url, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		t.Fatalf("%v: %s", err, errs.String())
	}
	client := &http.Client{Transport: &http.Transport{DisableKeepAlives: true}}
	for _, path := range []string{"", "api/job"} {
		answer, err := client.Get(strings.TrimSpace(url) + path)
		if err != nil {
			t.Fatal(err)
		}
		body, err := io.ReadAll(answer.Body)
		answer.Body.Close()
		if err != nil || answer.StatusCode != http.StatusOK || len(body) == 0 {
			t.Errorf("%s: %s, %d bytes, %v", path, answer.Status, len(body), err)
		}
	}
	stop()
	if status := <-ended; status != statusWell {
		t.Errorf("status %d, want %d: %s", status, statusWell, errs.String())
	}
}

// TestOpenRefuses: what cannot be shown is told before a server starts.
func TestOpenRefuses(t *testing.T) {
	for _, row := range []struct {
		args []string
		want string
	}{
		{[]string{"open", "nowhere.json"}, "no such file"},
		{[]string{"open", "--example", "boatshop"}, `nearest "boat-shop"`},
		{[]string{"open", "a.json", "--example", "boat-shop"}, "wanted one of them"},
		{[]string{"open", "--example", "boat-shop", "--no-browser", "--listen", "0.0.0.0:0"}, "this computer"},
	} {
		var errs bytes.Buffer
		status := Run(context.Background(), row.args, Streams{In: strings.NewReader(""), Out: io.Discard, Err: &errs, Env: func(string) string { return "" }})
		if status == statusWell || !strings.Contains(errs.String(), row.want) {
			t.Errorf("%v: status %d, %q; want %q", row.args, status, errs.String(), row.want)
		}
	}
}
