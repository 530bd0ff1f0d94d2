"""Parts, faces, placement, materials; operations, joints and assemblies."""
