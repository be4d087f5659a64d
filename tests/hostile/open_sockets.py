"""Opens sockets of every family, to find one that is not shut."""

import socket

for family in (socket.AF_INET, socket.AF_INET6, socket.AF_UNIX, socket.AF_NETLINK):
    with socket.socket(family, socket.SOCK_DGRAM):
        print("SUCCEEDED", family)
