package fetch

import "net/netip"

// Addresses that are no place of the open internet: the special-purpose registries of IANA for IPv4 and IPv6 (RFC 6890
// and its updates), from memory. What netip tells by itself (private, loopback, link-local, multicast, unspecified) is
// listed all the same: one table can be read against the registry.
var special = prefixes(
	"0.0.0.0/8",       // this network
	"10.0.0.0/8",      // private
	"100.64.0.0/10",   // shared by a carrier
	"127.0.0.0/8",     // loopback
	"169.254.0.0/16",  // link-local, where clouds keep their metadata
	"172.16.0.0/12",   // private
	"192.0.0.0/24",    // protocol assignments
	"192.0.2.0/24",    // documentation
	"192.31.196.0/24", // AS112
	"192.52.193.0/24", // AMT
	"192.88.99.0/24",  // 6to4 relays
	"192.168.0.0/16",  // private
	"192.175.48.0/24", // AS112
	"198.18.0.0/15",   // benchmarks
	"198.51.100.0/24", // documentation
	"203.0.113.0/24",  // documentation
	"224.0.0.0/4",     // multicast
	"240.0.0.0/4",     // reserved, and broadcast
	"2001::/23",       // protocol assignments: Teredo, benchmarks, ORCHID
	"2001:db8::/32",   // documentation
	"2002::/16",       // 6to4: an IPv4 address inside
	"2620:4f:8000::/48",
	"3fff::/20", // documentation
)

// openIPv6 is what is given out of IPv6 so far. Outside of it lie ::1, ::ffff:0:0/96 (IPv4-mapped), 64:ff9b::/96 and
// 64:ff9b:1::/48 (NAT64, an IPv4 address inside), 100::/64 (discard), fc00::/7 (private), fe80::/10 (link-local),
// fec0::/10 (site-local) and ff00::/8 (multicast).
var openIPv6 = netip.MustParsePrefix("2000::/3")

func prefixes(texts ...string) []netip.Prefix {
	var out []netip.Prefix
	for _, t := range texts {
		out = append(out, netip.MustParsePrefix(t))
	}
	return out
}

// public reports whether an address is one of the open internet.
func public(a netip.Addr) bool {
	if !a.IsValid() || a.Zone() != "" || a.Is4In6() || !a.IsGlobalUnicast() || a.IsPrivate() {
		return false
	}
	if a.Is6() && !openIPv6.Contains(a) {
		return false
	}
	for _, p := range special {
		if p.Contains(a) {
			return false
		}
	}
	return true
}
