package cli

import (
	"context"
	"fmt"
	"net"

	"stabile/render/bench"
)

// serve serves a bench and opens it in the browser; quietly, its address alone
// goes to standard output.
func (c *call) serve(ctx context.Context, s *bench.Server, l net.Listener, address string, quiet bool) error {
	ended := make(chan error, 1)
	go func() { ended <- s.Serve(ctx, l) }()
	if quiet {
		fmt.Fprintln(c.stdout, address)
		return <-ended
	}
	if err := openURL(ctx, address); err != nil && ctx.Err() == nil {
		fmt.Fprintf(c.stdout, "No browser could be opened. Open this address in one on this machine:\n\n  %s\n\n", address)
	} else {
		fmt.Fprintf(c.stdout, "The bench is open in your browser. If not, open this address in it:\n\n  %s\n\n", address)
	}
	fmt.Fprintln(c.stdout, "Leave this running while you work; press Ctrl-C to end it.")
	return <-ended
}
