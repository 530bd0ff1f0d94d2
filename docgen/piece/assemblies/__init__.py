"""One file an assembly: the parts and joints it stands for."""
