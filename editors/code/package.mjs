// Writes casewright.vsix: a zip file with the extension, its grammar, the library that it
// uses, and two lists that the editor asks for. It fetches nothing.

import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join, posix } from "node:path";
import { fileURLToPath } from "node:url";
import { crc32, deflateRawSync } from "node:zlib";

const HERE = dirname(fileURLToPath(import.meta.url));
const about = JSON.parse(readFileSync(join(HERE, "package.json")));

/// Every file below a folder that runs or is a license.
function below(folder) {
  return readdirSync(join(HERE, folder), { withFileTypes: true }).flatMap((entry) => {
    const path = posix.join(folder, entry.name);
    if (entry.isDirectory()) {
      return entry.name === "node_modules" ? [] : below(path);
    }
    return /\.(js|json|cjs)$|^licen[cs]e/i.test(entry.name) ? [path] : [];
  });
}

const lock = JSON.parse(readFileSync(join(HERE, "package-lock.json")));
const libraries = Object.keys(lock.packages).filter((path) => path !== "" && !lock.packages[path].dev);
const own = ["package.json", "language-configuration.json", "extension.js"];
const files = [...own, ...libraries.flatMap(below)].map((path) => [path, join(HERE, path)]);
for (const [name, path] of [
  ["casewright.tmLanguage.json", "../textmate/casewright.tmLanguage.json"],
  ["LICENSE-MIT", "../../LICENSE-MIT"],
  ["LICENSE-APACHE", "../../LICENSE-APACHE"],
]) {
  files.push([name, join(HERE, path)]);
}

const manifest = `<?xml version="1.0" encoding="utf-8"?>
<PackageManifest Version="2.0.0" xmlns="http://schemas.microsoft.com/developer/vsx-schema/2011">
  <Metadata>
    <Identity Language="en-US" Id="${about.name}" Version="${about.version}" Publisher="${about.publisher}"/>
    <DisplayName>${about.displayName}</DisplayName>
    <Description xml:space="preserve">${about.description}</Description>
    <Categories>${about.categories.join(",")}</Categories>
    <Properties>
      <Property Id="Microsoft.VisualStudio.Code.Engine" Value="${about.engines.vscode}"/>
    </Properties>
  </Metadata>
  <Installation>
    <InstallationTarget Id="Microsoft.VisualStudio.Code"/>
  </Installation>
  <Dependencies/>
  <Assets>
    <Asset Type="Microsoft.VisualStudio.Code.Manifest" Path="extension/package.json" Addressable="true"/>
  </Assets>
</PackageManifest>
`;
const types = `<?xml version="1.0" encoding="utf-8"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">
  <Default Extension=".json" ContentType="application/json"/>
  <Default Extension=".js" ContentType="application/javascript"/>
  <Default Extension=".cjs" ContentType="application/javascript"/>
  <Default Extension=".md" ContentType="text/markdown"/>
  <Default Extension=".txt" ContentType="text/plain"/>
  <Default Extension=".vsixmanifest" ContentType="text/xml"/>
</Types>
`;

/// A zip file: each entry with its head, and at the end a list of them all. The day is the
/// first that the format knows, so that the same files make the same bytes.
function zip(entries) {
  const parts = [];
  const list = [];
  let offset = 0;
  for (const [path, content] of entries) {
    const name = Buffer.from(path);
    const packed = deflateRawSync(content, { level: 9 });
    const head = Buffer.alloc(26);
    head.writeUInt16LE(20, 0); // version that is needed
    head.writeUInt16LE(0x0800, 2); // names are UTF-8
    head.writeUInt16LE(8, 4); // deflate
    head.writeUInt16LE(0, 6); // midnight
    head.writeUInt16LE(0x21, 8); // 1980-01-01
    head.writeUInt32LE(crc32(content), 10);
    head.writeUInt32LE(packed.length, 14);
    head.writeUInt32LE(content.length, 18);
    head.writeUInt16LE(name.length, 22);
    parts.push(Buffer.from("PK\x03\x04"), head, name, packed);
    const row = Buffer.alloc(46 - 4 - 2 - 26);
    row.writeUInt32LE(offset, 10);
    list.push(Buffer.from("PK\x01\x02\x14\x00"), head, row, name);
    offset += 4 + head.length + name.length + packed.length;
  }
  const rows = Buffer.concat(list);
  const end = Buffer.alloc(18);
  end.writeUInt16LE(entries.length, 4);
  end.writeUInt16LE(entries.length, 6);
  end.writeUInt32LE(rows.length, 8);
  end.writeUInt32LE(offset, 12);
  return Buffer.concat([...parts, rows, Buffer.from("PK\x05\x06"), end]);
}

const entries = [
  ["[Content_Types].xml", Buffer.from(types)],
  ["extension.vsixmanifest", Buffer.from(manifest)],
  ...files.map(([name, path]) => [`extension/${name}`, readFileSync(path)]),
];
const packed = zip(entries);
writeFileSync(join(HERE, `${about.name}.vsix`), packed);
console.log(`${about.name}.vsix: ${entries.length} files, ${packed.length} bytes`);
