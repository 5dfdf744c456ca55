"""What a machine is: files, links, poses."""
