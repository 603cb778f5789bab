/** Hands a file to the browser’s downloads. */
export function saveAs(name: string, content: Blob): void {
  const address = URL.createObjectURL(content);
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The download has its own hold on the content once it has begun.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

/** A machine’s name as the name of a file: "Travelling demonstrator" becomes travelling-demonstrator. */
export function tidyName(name: string): string {
  const tidy = name
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '');
  return tidy || 'machine';
}
