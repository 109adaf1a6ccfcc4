package fetch

import (
	"context"
	"errors"
	"net"
	"net/netip"
	"syscall"
)

// Resolver looks a name up.
type Resolver interface {
	LookupNetIP(ctx context.Context, network, host string) ([]netip.Addr, error)
}

// most answers of a name that are tried.
const mostTried = 4

// dial connects to a name by the answers that it has checked. All of them must be public: a name with a private answer
// among others is made to slip in.
func (f *Fetcher) dial(ctx context.Context, network, address string) (net.Conn, error) {
	host, port, err := net.SplitHostPort(address)
	if err != nil {
		return nil, err
	}
	all, err := f.lookUp(ctx, host)
	if err != nil {
		return nil, err
	}
	for _, a := range all {
		if !public(a) {
			return nil, errPrivate
		}
	}
	err = errors.New("no answer")
	for _, a := range all[:min(len(all), mostTried)] {
		var c net.Conn
		if c, err = f.connect(ctx, network, netip.AddrPortFrom(a, portOf(port)).String()); err == nil {
			return c, nil
		}
		if errors.Is(err, errPrivate) {
			break
		}
	}
	return nil, err
}

func portOf(text string) uint16 {
	if text == "443" {
		return 443
	}
	return 0 // refused when the socket is about to connect
}

func (f *Fetcher) lookUp(ctx context.Context, host string) ([]netip.Addr, error) {
	if a, err := netip.ParseAddr(host); err == nil {
		return []netip.Addr{a}, nil
	}
	all, err := f.resolver.LookupNetIP(ctx, "ip", host)
	if err != nil {
		return nil, &lookUpError{err}
	}
	for i := range all {
		// The system's resolver writes IPv4 answers as IPv6 ones; a mapped address in the text itself is refused.
		all[i] = all[i].Unmap()
	}
	if len(all) == 0 {
		return nil, &lookUpError{errors.New("no addresses")}
	}
	return all, nil
}

type lookUpError struct{ error }

func (e *lookUpError) Unwrap() error { return e.error }

// guarded is a dialer that checks the address once more when its socket is about to connect.
func guarded() *net.Dialer {
	return &net.Dialer{Timeout: connectWithin, Control: control}
}

func control(_, address string, _ syscall.RawConn) error {
	at, err := netip.ParseAddrPort(address)
	if err != nil || at.Port() != 443 || !public(at.Addr()) {
		return errPrivate
	}
	return nil
}
